#include "groups.h"

#include "bits.h"
#include "image.h"
#include "inputs.h"

/* What happens to a group's time in this tick. Until the sites have looked at
 * it, `time` is the old one. */
enum move { STILL, ON, AROUND, EDGE, EDGE_ANEW };

static struct group {
    uint32_t time; /* in the cycle, ms */
    uint8_t move;
} groups[CAPACITY_GROUPS];
static uint16_t first_at;

uint16_t group_at(uint8_t group) { return (uint16_t)(first_at + GROUP_BYTES * group); }

static uint32_t cycle_of(uint8_t group) { return word_ms(image_word(group_at(group))); }

void groups_start(void)
{
    first_at = groups_at(image_ram);
    for (uint8_t i = 0; i < image_bytes[AT_GROUPS]; i++) {
        groups[i].time = cycle_of(i) - 1;
        groups[i].move = STILL;
    }
}

/* Active in this tick, not in the one before. */
static bool edge(uint8_t input)
{
    return inputs_active(input) && !bit_get(inputs_before, input);
}

void groups_tick(bool running)
{
    for (uint8_t i = 0; i < image_count(AT_GROUPS, CAPACITY_GROUPS); i++) {
        struct group *group = &groups[i];
        uint32_t cycle = cycle_of(i);
        if (!running)
            group->move = STILL;
        else if (edge(image_bytes[group_at(i) + 7]))
            group->move = group->time * 2 >= cycle ? EDGE_ANEW : EDGE;
        else
            group->move = group->time + 1 >= cycle ? AROUND : ON;
    }
}

static uint32_t next_time(uint8_t i)
{
    switch (groups[i].move) {
    case STILL: return groups[i].time;
    case ON: return groups[i].time + 1;
    case AROUND: return 0;
    /* The edge was there when the input began to differ. */
    default: return image_bytes[inputs_at(image_ram) + INPUT_BYTES * image_bytes[group_at(i) + 7] + 2];
    }
}

bool groups_passed(uint8_t i, uint32_t offset)
{
    uint32_t before = groups[i].time, now = next_time(i);
    if (groups[i].move == AROUND || groups[i].move == EDGE_ANEW)
        return offset > before || offset <= now || offset >= cycle_of(i);
    return offset > before && offset <= now;
}

void groups_settle(void)
{
    for (uint8_t i = 0; i < image_count(AT_GROUPS, CAPACITY_GROUPS); i++)
        groups[i].time = next_time(i);
}

bool groups_pulse(uint8_t group) { return groups[group].time < SYNC_PULSE_MS; }
