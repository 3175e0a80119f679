#include "measure.h"

#include "answer.h"
#include "lamps.h"
#include "line.h"
#include "outputs.h"
#include "supply.h"
#include "verbs.h"

static const IN_FLASH char nothing[] = "-";

static void number_or_nothing(uint16_t value, bool is)
{
    if (is)
        answer_number(value);
    else
        answer_text(nothing);
}

/* An output and a level. */
static bool take_output(uint32_t *output, uint8_t *high)
{
    return line_number(output) && !line_index(high, 2);
}

static enum use use_of(uint32_t output) { return output > 0xFF ? USE_MISSING : outputs_use((uint8_t)output); }

uint8_t measure_pulse(void)
{
    uint32_t output, ms;
    uint8_t high;
    if (!take_output(&output, &high) || !line_number(&ms) || !line_end())
        return CODE_BAD_ARGUMENTS;
    if (use_of(output) != USE_FREE)
        return CODE_BAD_OUTPUT;
    if (!ms || ms > LINK_PULSE_MOST_MS)
        return CODE_OUTSIDE_LIMITS;
    pulse_begin((uint8_t)output, high, (uint16_t)ms);
    return 0;
}

uint8_t measure_probe(bool *answered)
{
    uint32_t pin;
    uint8_t high;
    struct probe found;
    if (!take_output(&pin, &high) || !line_end())
        return CODE_BAD_ARGUMENTS;
    if (pin >= CHAIN_BASE || use_of(pin) > USE_LAMP)
        return CODE_BAD_OUTPUT;
    if (lamps_any_lit() || pulse_on())
        return CODE_LAMPS_LIT;
    if (!hal_probe((uint8_t)pin, high, &found))
        return VERB_WAIT;
    answer_ok(line_sequence);
    *answered = true;
    number_or_nothing(found.level, found.level != PROBE_NO_LEVEL);
    number_or_nothing(found.rest, found.rest != PROBE_NOTHING);
    number_or_nothing(found.lit, found.lit != PROBE_NOTHING);
    return 0;
}

void measure_supply(void)
{
    answer_number(supply_now());
    answer_number(supply_least());
    number_or_nothing(supply_reference, supply_reference);
}
