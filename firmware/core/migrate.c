#include "migrate.h"

#if STORE_VERSION > 1

#include "crc.h"
#include "work.h"

/* Where the label's next version and CRC are noted while they are written. */
#define NOTE_AT 26
#define NOTE_BYTES 4
#define NOTE_MARK 3

static bool keep_wanted, label_wanted;

static uint8_t eeprom(uint16_t at) { return hal_eeprom_read(at); }
static uint8_t label_now(uint16_t at) { return at == VERSION_AT ? STORE_VERSION : hal_eeprom_read(at); }

bool migrate_image(uint8_t version)
{
    for (; version < STORE_VERSION; version++)
        if (!store_steps[version - 1]())
            return false;
    return true;
}

static uint8_t note_mark(image_source source)
{
    uint8_t sum = 0;
    for (uint8_t i = 0; i < NOTE_MARK; i++)
        sum = crc8_byte(sum, source((uint16_t)(NOTE_AT + i)));
    return sum ^ STORE_SECRET(STORE_VERSION);
}

/* The note is whole and speaks of the label that is there. */
static bool noted(void)
{
    return eeprom(NOTE_AT) == STORE_VERSION && eeprom(NOTE_AT + NOTE_MARK) == note_mark(eeprom)
           && store_label_crc(label_now) == source_word(eeprom, NOTE_AT + 1);
}

uint8_t migrate_label(uint8_t version) { return !version && noted() ? STORE_VERSION : version; }

void migrate_wanted(uint8_t version, uint8_t label)
{
    keep_wanted = version < STORE_VERSION;
    label_wanted = label && (label < STORE_VERSION || noted());
    if (keep_wanted)
        store_differs();
}

enum chore migrate_next(void)
{
    enum chore next = keep_wanted ? CHORE_KEEP : label_wanted ? CHORE_LABEL : CHORE_NONE;
    if (next == CHORE_KEEP)
        keep_wanted = false;
    else
        label_wanted = false;
    return next;
}

static uint8_t note_byte(uint16_t at)
{
    if (at == NOTE_AT)
        return STORE_VERSION;
    uint16_t crc = store_label_crc(label_now);
    return (uint8_t)(at == NOTE_AT + 1 ? crc : crc >> 8);
}

/* The note, its mark last; then the label; then the mark is spoiled. */
uint8_t migrate_label_slice(void)
{
    static const IN_FLASH uint8_t places[3] = { VERSION_AT, LABEL_CRC_AT, LABEL_CRC_AT + 1 };
    uint8_t outcome;
    switch (work.step) {
    case 0:
        if (work.at == 0 && noted())
            work.at = NOTE_BYTES;
        if (work.at == NOTE_BYTES)
            break;
        outcome = work_put((uint16_t)(NOTE_AT + work.at),
                           work.at == NOTE_MARK ? note_mark(note_byte) : note_byte((uint16_t)(NOTE_AT + work.at)));
        if (outcome == DONE)
            work.at++;
        return outcome == DONE ? WORKING : outcome;
    case 1:
        if (work.at == sizeof places)
            break;
        outcome = work_put(places[work.at], eeprom((uint16_t)(NOTE_AT + work.at)));
        if (outcome == DONE)
            work.at++;
        return outcome == DONE ? WORKING : outcome;
    default:
        return work_put(NOTE_AT + NOTE_MARK, (uint8_t)~note_mark(eeprom));
    }
    work_next_step();
    return WORKING;
}

#endif
