/* Written by scripts/generate-vocabulary.ts; do not edit. */
#ifndef VOCABULARY_H
#define VOCABULARY_H

#if defined(CHIP_ATMEGA328P)
#define CHIP_NAME "atmega328p"
#define CAPACITY_IMAGE 480
#define CAPACITY_LAMPS 64
#define CAPACITY_SITES 16
#define CAPACITY_INPUTS 16
#define CAPACITY_GROUPS 4
#define CAPACITY_PROGRAMS 16
#define CAPACITY_CHIPS 8
#define CAPACITY_PINS 19
#elif defined(CHIP_ATMEGA2560)
#define CHIP_NAME "atmega2560"
#define CAPACITY_IMAGE 2016
#define CAPACITY_LAMPS 128
#define CAPACITY_SITES 32
#define CAPACITY_INPUTS 32
#define CAPACITY_GROUPS 8
#define CAPACITY_PROGRAMS 32
#define CAPACITY_CHIPS 16
#define CAPACITY_PINS 69
#else
#error "name the chip"
#endif

#define IMAGE_FORMAT 1
#define NONE 255
#define NO_DIAL 15
#define NO_GROUP 15
#define CHAIN_BASE 128
#define DEFAULT_FLASH_MS 500
#define SYNC_PULSE_MS 200
#define MAX_STEPS 16
#define FAULT_RETURN_SHOW 5000
#define FAULT_RETURN_CLEAR 5000
#define FAULT_RETURN_TIMES 3
#define FAULT_RETURN_SPAN 4096000
#define LIMIT_LAMPS 32
#define LIMIT_DIALS 15
#define LIMIT_INPUTS 8
#define LIMIT_ROWS 255
#define LIMIT_CONFLICTS 64

#define STATE_DARK 0
#define STATE_LIT 1
#define STATE_FLASH 2
#define STATE_ALTERNATE 3

#define OP_AFTER 0
#define OP_UNTIL 1
#define OP_UNTIL_MAX 2
#define OP_EXTEND 3
#define OP_RANDOM 4
#define OP_SYNC 5
#define OP_JUMP 6
#define OP_CLEAR 7
#define OP_LATCH 8

#define COND_DEMAND 0
#define COND_NO_DEMAND 1
#define COND_ACTIVE 2
#define COND_INACTIVE 3
#define COND_CHANGED 4
#define COND_CHANCE 5
#define COND_ALL_ACTIVE 6
#define COND_NOT_ALL 7

#define AT_NIGHT_RUN 0
#define AT_NIGHT_FAULT 1
#define AT_NIGHT_SAFE 2
#define AT_NIGHT_DARK 3

#define PROTOCOL_VERSION 1
/* Tests build the core for a version to come. */
#ifndef STORE_VERSION
#define STORE_VERSION 1
#endif
#define BAUD 57600
#define LINK_REQUEST_LINE 64
#define LINK_ANSWER_LINE 120
#define LINK_PART_BYTES 16
#define LINK_READ_BYTES 32
#define LINK_SILENCE_MS 5000
#define LINK_LAMP_LEAST_MS 10
#define LINK_LAMP_MOST_MS 60000
#define LINK_PULSE_MOST_MS 2000
#define LINK_METER_LEAST_MV 3000
#define LINK_METER_MOST_MV 5500
#define LINK_REFERENCE_LEAST_MV 900
#define LINK_REFERENCE_MOST_MV 1300

#define VERB_WHO 0
#define VERB_CAPS 1
#define VERB_STATE 2
#define VERB_BEGIN 3
#define VERB_PART 4
#define VERB_START 5
#define VERB_DROP 6
#define VERB_SUM 7
#define VERB_READ 8
#define VERB_DIAL 9
#define VERB_KEEP 10
#define VERB_BACK 11
#define VERB_ERASE 12
#define VERB_RUN 13
#define VERB_PAUSE 14
#define VERB_STEP 15
#define VERB_AGAIN 16
#define VERB_HOLD 17
#define VERB_LAMP 18
#define VERB_MASTER 19
#define VERB_PRESS 20
#define VERB_INPUTS 21
#define VERB_TELL 22
#define VERB_SNAP 23
#define VERB_SITE 24
#define VERB_LABEL 25
#define VERB_BEAT 26
#define VERB_PULSE 27
#define VERB_PROBE 28
#define VERB_SUPPLY 29
#define VERB_METER 30
#define VERB_GUARD 31
#define VERB_COUNT 32
#define VERB_WORDS \
    "who\0" \
    "caps\0" \
    "state\0" \
    "begin\0" \
    "part\0" \
    "start\0" \
    "drop\0" \
    "sum\0" \
    "read\0" \
    "dial\0" \
    "keep\0" \
    "back\0" \
    "erase\0" \
    "run\0" \
    "pause\0" \
    "step\0" \
    "again\0" \
    "hold\0" \
    "lamp\0" \
    "master\0" \
    "press\0" \
    "inputs\0" \
    "tell\0" \
    "snap\0" \
    "site\0" \
    "label\0" \
    "beat\0" \
    "pulse\0" \
    "probe\0" \
    "supply\0" \
    "meter\0" \
    "guard\0"
/* For each verb: bit 0 slow, bit 1 once. */
#define VERB_KINDS 0, 0, 0, 3, 1, 3, 0, 1, 0, 0, 3, 3, 3, 0, 0, 2, 2, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0

#define CODE_UNKNOWN_VERB 1
#define CODE_BAD_ARGUMENTS 2
#define CODE_NO_SUCH_THING 3
#define CODE_OUTSIDE_LIMITS 4
#define CODE_NO_TABLE 5
#define CODE_BUSY 6
#define CODE_NO_UPLOAD 7
#define CODE_TOO_LONG 8
#define CODE_NOT_WHOLE 9
#define CODE_STORE_FAILED 10
#define CODE_LAMPS_LIT 11
#define CODE_BAD_FORMAT 20
#define CODE_BAD_COUNT 21
#define CODE_BAD_LENGTH 22
#define CODE_BAD_OUTPUT 23
#define CODE_BAD_INPUT 24
#define CODE_BAD_DIAL 25
#define CODE_BAD_ROW 26
#define CODE_BAD_TARGET 27
#define CODE_BAD_TIME 28
#define CODE_CONFLICT 29
#define CODE_BAD_SITE 30
#define CODE_PIN_TWICE 31
/* Each reason stands behind its code. */
#define CODE_REASONS \
    "\1" "unknown word\0" \
    "\2" "bad arguments\0" \
    "\3" "no such number\0" \
    "\4" "outside limits\0" \
    "\5" "no table\0" \
    "\6" "busy\0" \
    "\7" "no upload begun\0" \
    "\10" "too long\0" \
    "\11" "not whole\0" \
    "\12" "store failed\0" \
    "\13" "lamps lit\0" \
    "\24" "unknown image format\0" \
    "\25" "count too high\0" \
    "\26" "record length wrong\0" \
    "\27" "no such output\0" \
    "\30" "no such input\0" \
    "\31" "dial number or limits wrong\0" \
    "\32" "row not understood\0" \
    "\33" "jump to nowhere\0" \
    "\34" "time outside its limits\0" \
    "\35" "conflicting lamps lit together\0" \
    "\36" "site not understood\0" \
    "\37" "pin used twice\0"

#define FAULT_NONE 0
#define FAULT_CONFLICT 1
#define FAULT_STUCK 2
#define FAULT_TABLE 3
#define FAULT_STATE 4
#define FLAG_TABLE 1
#define FLAG_UNKEPT 2
#define FLAG_PAUSED 4
#define FLAG_OVERRIDE 8
#define FLAG_FAULT 16
#define FLAG_UPLOAD 32
#define FLAG_STORE_FAULT 64
#define FLAG_LABEL_FAULT 128
#define DEED_RELOADED 0
#define DEED_STOPPED 1
#define DEED_RENEWED 2
#define DEED_DAMAGED 3
#define SITE_FLAG_HELD 1
#define SITE_FLAG_FAULT 2
#define SITE_FLAG_WAITING 4
#define SITE_FLAG_STAYS 8

#define MASTER_RUN 0
#define MASTER_NIGHT 1
#define MASTER_OFF 2
#define MASTER_SAFE 3
#define MASTER_WORDS \
    "run\0" \
    "night\0" \
    "off\0" \
    "safe\0"
#define CAUSE_UNKNOWN 0
#define CAUSE_POWER 1
#define CAUSE_RESET 2
#define CAUSE_BROWNOUT 3
#define CAUSE_WATCHDOG 4
#define CAUSE_WORDS \
    "unknown\0" \
    "power\0" \
    "reset\0" \
    "brownout\0" \
    "watchdog\0"
#define EVENT_HELLO 0
#define EVENT_LAMPS 1
#define EVENT_ROW 2
#define EVENT_DEMAND 3
#define EVENT_FAULT 4
#define EVENT_GAP 5
#define EVENT_ALONE 6
#define EVENT_GUARD 7
#define EVENT_WORDS \
    "hello\0" \
    "lamps\0" \
    "row\0" \
    "demand\0" \
    "fault\0" \
    "gap\0" \
    "alone\0" \
    "guard\0"

#endif
