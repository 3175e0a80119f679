#include <avr/interrupt.h>
#include <avr/io.h>

#include "hal.h"

bool hal_eeprom_ready(void) { return !(EECR & 1 << EEPE); }

uint8_t hal_eeprom_read(uint16_t at)
{
    EEAR = at;
    EECR |= 1 << EERE;
    return EEDR;
}

void hal_eeprom_write(uint16_t at, uint8_t value)
{
    EEAR = at;
    EEDR = value;
    /* Erase and write in one; EEPE within four clocks of EEMPE. */
    cli();
    EECR = 1 << EEMPE;
    EECR |= 1 << EEPE;
    sei();
}
