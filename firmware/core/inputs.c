#include "inputs.h"

#include <string.h>

#include "bits.h"
#include "events.h"
#include "image.h"

uint8_t inputs_levels[INPUT_BITS];
uint8_t inputs_before[INPUT_BITS];
uint8_t inputs_demands[INPUT_BITS];
uint8_t inputs_stir;

static uint8_t accepted[INPUT_BITS];
static uint8_t forced[INPUT_BITS];
static uint8_t forced_on[INPUT_BITS];
/* Ticks for which the raw level has differed from the accepted one. */
static uint8_t differing[CAPACITY_INPUTS];
static uint16_t first_at;

void inputs_start(void)
{
    memset(inputs_levels, 0, sizeof inputs_levels);
    memset(inputs_before, 0, sizeof inputs_before);
    memset(inputs_demands, 0, sizeof inputs_demands);
    memset(accepted, 0, sizeof accepted);
    memset(differing, 0, sizeof differing);
    inputs_release_all();
    inputs_stir = 2;
    first_at = image_length ? inputs_at(image_ram) : 0;
}

/* Debounces up to eight inputs; gives their accepted levels. */
static uint8_t debounce(uint8_t levels, uint8_t *count, const uint8_t *record, uint8_t inputs)
{
    for (uint8_t mask = 1; inputs; inputs--, mask <<= 1, count++, record += INPUT_BYTES) {
        bool raw = hal_input(record[0]);
        if (record[1] & INPUT_ACTIVE_LOW)
            raw = !raw;
        if (raw == ((levels & mask) != 0)) {
            *count = 0;
        } else if (++*count >= record[2]) {
            *count = 0;
            levels ^= mask;
        }
    }
    return levels;
}

static void latch_active(uint8_t b)
{
    uint8_t fresh = inputs_levels[b] & (uint8_t)~inputs_demands[b];
    for (uint8_t i = (uint8_t)(8 * b); fresh; fresh >>= 1, i++)
        if (fresh & 1)
            inputs_latch(i);
}

void inputs_tick(void)
{
    uint8_t left = image_count(AT_INPUTS, CAPACITY_INPUTS), *count = differing;
    const uint8_t *record = image_bytes + first_at;
    for (uint8_t b = 0; left; b++) {
        uint8_t inputs = left < 8 ? left : 8;
        accepted[b] = debounce(accepted[b], count, record, inputs);
        inputs_before[b] = inputs_levels[b];
        inputs_levels[b] = (uint8_t)((accepted[b] & ~forced[b]) | forced_on[b]);
        if (inputs_levels[b] != inputs_before[b])
            inputs_stir = 2;
        latch_active(b);
        left -= inputs;
        count += 8;
        record += 8 * INPUT_BYTES;
    }
}

bool inputs_active(uint8_t input) { return input < CAPACITY_INPUTS && bit_get(inputs_levels, input); }

void inputs_latch(uint8_t input)
{
    if (input >= CAPACITY_INPUTS || bit_get(inputs_demands, input))
        return;
    bit_put(inputs_demands, input, true);
    inputs_stir = 2;
    events_demand(input);
}

void inputs_clear(uint8_t input)
{
    if (input >= CAPACITY_INPUTS)
        return;
    if (bit_get(inputs_demands, input))
        inputs_stir = 2;
    bit_put(inputs_demands, input, false);
}

void inputs_force(uint8_t input, bool active)
{
    bit_put(forced, input, true);
    bit_put(forced_on, input, active);
}

void inputs_release(uint8_t input)
{
    bit_put(forced, input, false);
    bit_put(forced_on, input, false);
}

void inputs_release_all(void)
{
    memset(forced, 0, sizeof forced);
    memset(forced_on, 0, sizeof forced_on);
}

bool inputs_forced(void)
{
    uint8_t any = 0;
    for (uint8_t b = 0; b < INPUT_BITS; b++)
        any |= forced[b];
    return any != 0;
}
