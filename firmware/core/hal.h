/* What the core asks of a board. firmware/avr implements it with registers,
 * test/firmware/host with arrays. No call waits but `hal_probe`. */
#ifndef HAL_H
#define HAL_H

#include <stdbool.h>
#include <stdint.h>

#include "vocabulary.h"

#ifdef __AVR__
#define IN_FLASH __flash
#else
#define IN_FLASH
#endif

/* Two slots and 64 bytes in common fill the EEPROM of either chip. */
#define EEPROM_BYTES (64 + 2 * CAPACITY_IMAGE)

/* Clock: true when a millisecond is due; takes it. */
bool hal_tick(void);
/* On a board the start of a table takes time of its own and waits for a tick to
 * begin with; on the host time stands still meanwhile. */
#ifdef __AVR__
#define HAL_START_TAKES_TIME true
#else
#define HAL_START_TAKES_TIME false
#endif
/* Says that the board is alive. */
void hal_watchdog(void);
/* Sleeps until something happens; not at all when a tick or a byte waits. */
void hal_sleep(void);

/* Serial: the next byte received, or -1. */
int16_t hal_receive(void);
/* Characters that can be sent without loss; all but one of HAL_SENDING when
 * nothing waits. The longest line of the firmware has 90. */
#define HAL_SENDING 104
uint8_t hal_send_room(void);
void hal_send(char c);

/* Pins: a new arrangement is described, then applied at once. What is not
 * named becomes an input without pull-up. */
void hal_pins_begin(void);
void hal_pin_input(uint8_t pin, bool pull_up);
void hal_pin_output(uint8_t pin, bool high);
/* `pins` are data, clock, latch and output enable (or NONE). */
void hal_chain(uint8_t chips, const uint8_t pins[4]);
/* The chain's output enable is driven only when its bits are in the chips. */
void hal_pins_apply(void);

/* Outputs are noted one by one and change together. */
void hal_output(uint8_t output, bool high);
void hal_outputs_commit(void);
bool hal_input(uint8_t pin);

/* A pin that the arrangement does not name, at once: driven, and let go. */
void hal_pin_drive(uint8_t pin, bool high);
void hal_pin_free(uint8_t pin);

/* What a pin tells of its lamp, of 1,023 for the supply. */
#define PROBE_NO_LEVEL 0xFF
#define PROBE_NOTHING 0xFFFF
struct probe {
    uint8_t level;
    uint16_t rest, lit;
};
/* Measures a pin that is no input and whose lamp is dark: 0.45 ms at most.
 * `high`: the lamp is lit when high. False: there is no time in this tick. */
bool hal_probe(uint8_t pin, bool high, struct probe *found);

/* EEPROM: read and write only when ready; a write takes 3.4 ms. */
bool hal_eeprom_ready(void);
uint8_t hal_eeprom_read(uint16_t at);
void hal_eeprom_write(uint16_t at, uint8_t value);

/* The internal reference, of 1,024 for the supply; 0 before the first reading. */
uint16_t hal_supply_reading(void);
uint8_t hal_reset_cause(void);
/* Restarts by watchdog and by brown-out since power-on, as far as can be told. */
uint8_t hal_watchdogs(void);
uint8_t hal_brownouts(void);
uint16_t hal_stack_unused(void);

/* For tests that watch the interpreter; nothing on a board. */
#ifdef __AVR__
static inline void hal_note_interval(uint8_t site, uint8_t row) { (void)site; (void)row; }
static inline void hal_note_fault(uint8_t site, uint8_t fault) { (void)site; (void)fault; }
#else
void hal_note_interval(uint8_t site, uint8_t row);
void hal_note_fault(uint8_t site, uint8_t fault);
#endif

#endif
