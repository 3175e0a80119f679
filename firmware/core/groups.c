#include "groups.h"

#include "bits.h"
#include "image.h"
#include "inputs.h"

static struct group {
    uint32_t time;   /* in the cycle, ms */
    uint32_t before; /* the time one tick ago */
    bool anew;       /* the cycle begins anew in this tick */
} groups[CAPACITY_GROUPS];
static uint16_t first_at;

uint16_t group_at(uint8_t group) { return (uint16_t)(first_at + GROUP_BYTES * group); }

static uint32_t cycle_of(uint8_t group) { return word_ms(image_word(group_at(group))); }

void groups_start(void)
{
    first_at = groups_at(image_ram);
    for (uint8_t i = 0; i < image_bytes[AT_GROUPS]; i++) {
        groups[i].time = groups[i].before = cycle_of(i) - 1;
        groups[i].anew = false;
    }
}

/* Active in this tick, not in the one before. */
static bool edge(uint8_t input)
{
    return inputs_active(input) && !bit_get(inputs_before, input);
}

void groups_tick(bool running)
{
    for (uint8_t i = 0; i < image_bytes[AT_GROUPS]; i++) {
        struct group *group = &groups[i];
        group->before = group->time;
        group->anew = false;
        if (!running)
            continue;
        uint32_t cycle = cycle_of(i);
        uint8_t input = image_bytes[group_at(i) + 7];
        if (edge(input)) {
            /* The edge was there when the input began to differ. */
            group->time = image_bytes[inputs_at(image_ram) + INPUT_BYTES * input + 2];
            group->anew = group->before * 2 >= cycle;
        } else if (++group->time >= cycle) {
            group->time = 0;
            group->anew = true;
        }
    }
}

bool groups_passed(uint8_t group, uint32_t offset)
{
    const struct group *g = &groups[group];
    if (g->anew)
        return offset > g->before || offset <= g->time || offset >= cycle_of(group);
    return offset > g->before && offset <= g->time;
}

bool groups_pulse(uint8_t group) { return groups[group].time < SYNC_PULSE_MS; }
