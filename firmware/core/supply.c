#include "supply.h"

#include "store.h"
#include "work.h"

#define USUAL 1100

uint16_t supply_reference;

/* The highest reading is that of the lowest supply. */
static uint16_t most;

/* The value, then its complement; the last byte is spoiled first and written
 * last, so that no mixture of two values ever counts. */
#define REFERENCE_AT 30
#define COMPLEMENT_AT 32
#define LAST_AT 33
#define SPOILED 0xFF

static uint8_t eeprom(uint16_t at) { return hal_eeprom_read(at); }

void supply_boot(void)
{
    uint16_t value = source_word(eeprom, REFERENCE_AT);
    uint16_t complement = source_word(eeprom, COMPLEMENT_AT);
    if ((value ^ complement) == 0xFFFF && value >= LINK_REFERENCE_LEAST_MV && value <= LINK_REFERENCE_MOST_MV)
        supply_reference = value;
}

void supply_tick(void)
{
    uint16_t reading = hal_supply_reading();
    if (reading > most)
        most = reading;
}

static uint16_t millivolts(uint16_t reading)
{
    uint16_t reference = supply_reference ? supply_reference : USUAL;
    return reading ? (uint16_t)(reference * 1024UL / reading) : 0;
}

uint16_t supply_now(void) { return millivolts(hal_supply_reading()); }

uint16_t supply_least(void)
{
    uint16_t least = millivolts(most);
    most = hal_supply_reading();
    return least;
}

uint16_t supply_by_meter(uint16_t shown) { return (uint16_t)(((uint32_t)shown * hal_supply_reading() + 512) / 1024); }

uint8_t meter_slice(void)
{
    static const IN_FLASH uint8_t order[] = { LAST_AT, REFERENCE_AT, REFERENCE_AT + 1, COMPLEMENT_AT, LAST_AT };
    uint16_t value = work.order.reference;
    uint16_t to = order[work.at];
    uint8_t byte = (uint8_t)(to & 1 ? value >> 8 : value);
    if (to >= COMPLEMENT_AT)
        byte = work.at ? (uint8_t)~byte : SPOILED;
    uint8_t outcome = work_put(to, byte);
    if (outcome != DONE)
        return outcome;
    if (++work.at < sizeof order)
        return WORKING;
    supply_reference = value;
    return DONE;
}
