#include "walk.h"

#include "crc.h"

/* Sets where the dial words of this item begin and how many bytes they have. */
static void find_dials(struct walk *walk)
{
    image_source source = walk->source;
    uint8_t groups = source(AT_GROUPS);
    if (walk->item < groups) {
        walk->edge = (uint16_t)(groups_at(source) + GROUP_BYTES * walk->item);
        walk->dial_bytes = 2;
    } else if (walk->item < groups + source(AT_SITES)) {
        if (walk->item == groups)
            walk->record = program_at(source, source(AT_PROGRAMS));
        uint16_t program = program_at(source, source(walk->record));
        walk->edge = (uint16_t)(walk->record + SITE_BYTES + source((uint16_t)(program + PROGRAM_INPUTS)));
        walk->dial_bytes = (uint8_t)(2 * source((uint16_t)(program + PROGRAM_DIALS)));
        walk->record = (uint16_t)(walk->edge + walk->dial_bytes);
    } else {
        walk->edge = walk->length;
        walk->dial_bytes = 0;
    }
}

void walk_start(struct walk *walk, image_source source, uint16_t length)
{
    walk->source = source;
    walk->length = length;
    walk->at = 0;
    walk->item = 0;
    walk->dial = false;
    find_dials(walk);
}

bool walk_more(struct walk *walk)
{
    if (walk->at >= walk->length)
        return false;
    while (walk->at == walk->edge) {
        if (walk->dial) {
            walk->item++;
            walk->dial = false;
            find_dials(walk);
        } else {
            walk->dial = true;
            walk->edge = (uint16_t)(walk->edge + walk->dial_bytes);
        }
    }
    return true;
}

uint16_t walk_shape(image_source source, uint16_t length)
{
    struct walk walk;
    uint16_t crc = CRC16_START;
    walk_start(&walk, source, length);
    for (; walk_more(&walk); walk.at++)
        if (!walk.dial)
            crc = crc16_byte(crc, source(walk.at));
    return crc;
}
