#include "verbs.h"

#include "answer.h"
#include "board.h"
#include "events.h"
#include "groups.h"
#include "guard.h"
#include "image.h"
#include "inputs.h"
#include "jobs.h"
#include "lamps.h"
#include "line.h"
#include "measure.h"
#include "sites.h"
#include "store.h"
#include "supply.h"
#include "version.h"

static const IN_FLASH char levels[] = "auto\0on\0off\0";
enum { AUTO, ON, OFF };

static const IN_FLASH char product[] = "amberwick", version[] = FIRMWARE_VERSION, chip[] = CHIP_NAME, dash[] = "-";

static void answer_ok_now(bool *answered)
{
    answer_ok(line_sequence);
    *answered = true;
}

static uint8_t eeprom(uint16_t at) { return hal_eeprom_read(at); }

static uint8_t who(void)
{
    if (!hal_eeprom_ready())
        return VERB_WAIT;
    answer_ok(line_sequence);
    answer_text(product);
    answer_number(PROTOCOL_VERSION);
    answer_text(version);
    answer_number(STORE_VERSION);
    answer_text(chip);
    uint32_t identity = 0;
    uint8_t length = 0;
    if (store_label_good) {
        for (uint8_t i = 0; i < IDENTITY_BYTES; i++)
            identity = identity << 8 | eeprom((uint16_t)(IDENTITY_AT + i));
        for (uint8_t i = 0; i < NAME_BYTES; i++)
            if (eeprom((uint16_t)(NAME_AT + i)))
                length = (uint8_t)(i + 1);
    }
    answer_hex(identity, 8);
    if (image_length)
        answer_hex(image_shape, 4);
    else
        answer_text(dash);
    answer_bytes(eeprom, NAME_AT, length);
    return 0;
}

static void caps(void)
{
    static const IN_FLASH uint16_t numbers[] = {
        CAPACITY_IMAGE,  CAPACITY_LAMPS,    CAPACITY_SITES, CAPACITY_INPUTS,   CAPACITY_GROUPS,
        CAPACITY_PROGRAMS, CAPACITY_CHIPS, LINK_REQUEST_LINE, LINK_PART_BYTES, LINK_READ_BYTES,
    };
    for (uint8_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        answer_number(numbers[i]);
}

static void state(void)
{
    answer_number(board_seconds());
    answer_cause();
    answer_number(supply_now());
    answer_number(hal_stack_unused());
    answer_master(board_master);
    answer_hex(board_flags(), 2);
    answer_number(line_dropped);
    answer_number(store_keeps);
}

static uint8_t read_image(bool *answered)
{
    static const IN_FLASH char images[] = "run\0kept\0";
    uint32_t offset;
    uint8_t which = line_word(images);
    if (which == NONE || !line_number(&offset) || !line_end())
        return CODE_BAD_ARGUMENTS;
    uint16_t length = which ? store_length : image_length;
    if (!length)
        return CODE_NO_TABLE;
    if (offset >= length)
        return CODE_NO_SUCH_THING;
    if (which && !hal_eeprom_ready())
        return VERB_WAIT;
    uint16_t at = (uint16_t)offset, left = (uint16_t)(length - at);
    answer_ok_now(answered);
    answer_number(at);
    answer_bytes(which ? store_source(store_newest) : image_ram, at,
                 left < LINK_READ_BYTES ? (uint8_t)left : LINK_READ_BYTES);
    return 0;
}

/* A dial or cycle: where its word and its two limits stand in the image. A
 * cycle is of no site. */
static uint8_t find_dial(uint16_t *word, uint16_t *limits, uint8_t *of_site)
{
    uint32_t site, dial;
    if (!line_number(&site) || !line_number(&dial))
        return CODE_BAD_ARGUMENTS;
    if (!image_length)
        return CODE_NO_TABLE;
    if (site < sites_count) {
        uint16_t program = sites[site].program_at;
        sites_select((uint8_t)site);
        if (dial >= image_bytes[program + PROGRAM_DIALS])
            return CODE_NO_SUCH_THING;
        *word = sites_dial_at(&sites[site], (uint8_t)dial);
        *limits = (uint16_t)(program + PROGRAM_BYTES + 4 * dial);
        *of_site = (uint8_t)site;
        return 0;
    }
    if (site < 128 || site - 128 >= image_bytes[AT_GROUPS] || dial)
        return CODE_NO_SUCH_THING;
    *word = group_at((uint8_t)(site - 128));
    *limits = (uint16_t)(*word + 2);
    return 0;
}

static uint8_t dial(bool *answered)
{
    uint16_t at = 0, limits = 0;
    uint8_t site = NONE;
    uint8_t code = find_dial(&at, &limits, &site);
    if (code)
        return code;
    if (!line_end()) {
        uint32_t ms;
        if (!line_number(&ms) || !line_end())
            return CODE_BAD_ARGUMENTS;
        if (ms < word_ms(image_word(limits)) || ms > word_ms(image_word(limits + 2)))
            return CODE_OUTSIDE_LIMITS;
        uint16_t word = nearest_word(ms);
        if (word != image_word(at)) {
            guard_put_word(at, word);
            image_changes++;
            store_differs();
            if (site != NONE)
                sites_dials_changed(site);
        }
    }
    answer_ok_now(answered);
    answer_number(word_ms(image_word(at)));
    return 0;
}

static uint8_t take_site(uint8_t *site)
{
    uint8_t code = line_index(site, sites_count);
    return code == CODE_NO_SUCH_THING && !image_length ? CODE_NO_TABLE : code;
}

static uint8_t step(bool *answered)
{
    uint8_t site, code = take_site(&site);
    if (code || !line_end())
        return code ? code : CODE_BAD_ARGUMENTS;
    sites_step(site);
    answer_ok_now(answered);
    answer_number(sites[site].row);
    return 0;
}

static uint8_t again(void)
{
    if (line_end()) {
        if (!image_length)
            return CODE_NO_TABLE;
        board_again();
        return 0;
    }
    uint8_t site, code = take_site(&site);
    if (code || !line_end())
        return code ? code : CODE_BAD_ARGUMENTS;
    sites_again(site);
    return 0;
}

static uint8_t hold(void)
{
    uint8_t site, on, code = take_site(&site);
    if (code)
        return code;
    if (line_index(&on, 2) || !line_end())
        return CODE_BAD_ARGUMENTS;
    sites_hold(site, on);
    return 0;
}

/* The last field: auto, on or off. */
static bool take_level(uint8_t *level)
{
    *level = line_word(levels);
    return *level != NONE && line_end();
}

static void set_lamp(uint8_t i, uint8_t level)
{
    if (level == AUTO)
        lamps_release(i);
    else
        lamps_force(i, level == ON);
}

static uint8_t lamp(void)
{
    static const IN_FLASH char all_word[] = "all\0";
    uint8_t first = 0, last = image_bytes[AT_LAMPS], level;
    uint32_t ms = 0;
    bool all = line_word(all_word) != NONE;
    if (!all) {
        uint8_t code = line_index(&first, last);
        if (code)
            return code == CODE_NO_SUCH_THING && !image_length ? CODE_NO_TABLE : code;
        last = (uint8_t)(first + 1);
    }
    level = line_word(levels);
    if (level == NONE)
        return CODE_BAD_ARGUMENTS;
    if (!line_end()) {
        if (all || level != ON || !line_number(&ms) || !line_end())
            return CODE_BAD_ARGUMENTS;
        if (ms < LINK_LAMP_LEAST_MS || ms > LINK_LAMP_MOST_MS)
            return CODE_OUTSIDE_LIMITS;
    }
    if (!image_length)
        return CODE_NO_TABLE;
    if (ms) {
        lamps_time(first, (uint16_t)ms);
        return 0;
    }
    for (uint8_t i = first; i < last; i++)
        set_lamp(i, level);
    return 0;
}

static uint8_t set_master(void)
{
    static const IN_FLASH char states[] = "auto\0" MASTER_WORDS;
    uint8_t master = line_word(states);
    if (master == NONE || !line_end())
        return CODE_BAD_ARGUMENTS;
    board_host_master = master ? (uint8_t)(master - 1) : NONE;
    return 0;
}

static uint8_t press(void)
{
    uint8_t input, level, code = line_index(&input, image_bytes[AT_INPUTS]);
    if (code)
        return code == CODE_NO_SUCH_THING && !image_length ? CODE_NO_TABLE : code;
    if (!take_level(&level))
        return CODE_BAD_ARGUMENTS;
    if (level == AUTO)
        inputs_release(input);
    else
        inputs_force(input, level == ON);
    return 0;
}

static uint8_t tell(void)
{
    uint8_t on;
    if (line_index(&on, 2) || !line_end())
        return CODE_BAD_ARGUMENTS;
    events_tell(on);
    return 0;
}

static void snapshot(void)
{
    answer_number(board_now);
    answer_bits(lamps_lit, image_bytes[AT_LAMPS]);
    answer_bits(inputs_demands, image_bytes[AT_INPUTS]);
    answer_master(board_master);
    answer_hex(board_flags(), 2);
}

static uint8_t site(bool *answered)
{
    uint8_t i, code = take_site(&i);
    if (code || !line_end())
        return code ? code : CODE_BAD_ARGUMENTS;
    answer_ok_now(answered);
    answer_number(sites[i].row);
    answer_signed(sites_elapsed(i));
    answer_hex((uint32_t)((sites_held(i) ? SITE_FLAG_HELD : 0)
                          | (sites_fault_of(i) ? SITE_FLAG_FAULT : 0)
                          | (sites_waiting(i) ? SITE_FLAG_WAITING : 0)
                          | (sites_stays(i) ? SITE_FLAG_STAYS : 0)), 2);
    answer_number(sites_fault_of(i));
    return 0;
}

static void guard(void)
{
    answer_number(guard_faults);
    if (guard_faults)
        answer_number(guard_last & 31);
    else
        answer_text(dash);
    answer_number(guard_last >> 5);
    answer_hex(guard_deeds >> 4, 2);
    answer_number(hal_watchdogs());
    answer_number(hal_brownouts());
}

/* Words without arguments. */
static uint8_t plain(uint8_t verb, bool *answered)
{
    if (!line_end())
        return CODE_BAD_ARGUMENTS;
    switch (verb) {
    case VERB_WHO:
        *answered = true;
        return who();
    case VERB_DROP: jobs_drop_upload(); return 0;
    case VERB_RUN: board_paused = false; return 0;
    case VERB_PAUSE: board_paused = true; return 0;
    }
    answer_ok_now(answered);
    switch (verb) {
    case VERB_CAPS: caps(); break;
    case VERB_STATE: state(); break;
    case VERB_INPUTS:
        answer_bits(inputs_levels, image_bytes[AT_INPUTS]);
        answer_bits(inputs_demands, image_bytes[AT_INPUTS]);
        break;
    case VERB_SNAP: snapshot(); break;
    case VERB_SUPPLY: measure_supply(); break;
    case VERB_GUARD: guard(); break;
    default: answer_number(board_now); /* beat */
    }
    return 0;
}

uint8_t verbs_do(uint8_t verb, bool *answered)
{
    switch (verb) {
    case VERB_READ: return read_image(answered);
    case VERB_DIAL: return dial(answered);
    case VERB_STEP: return step(answered);
    case VERB_AGAIN: return again();
    case VERB_HOLD: return hold();
    case VERB_LAMP: return lamp();
    case VERB_MASTER: return set_master();
    case VERB_PRESS: return press();
    case VERB_TELL: return tell();
    case VERB_SITE: return site(answered);
    case VERB_PULSE: return measure_pulse();
    case VERB_PROBE: return measure_probe(answered);
    default: return plain(verb, answered);
    }
}
