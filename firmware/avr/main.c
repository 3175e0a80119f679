#include <avr/interrupt.h>

#include "adc.h"
#include "board.h"
#include "clock.h"
#include "reset.h"
#include "serial.h"

int main(void)
{
    /* After a restart by software everything is as it was. */
    reset_quiet();
    hal_pins_begin();
    hal_pins_apply();
    serial_start();
    adc_start();
    clock_start();
    watchdog_start();
    sei();
    board_boot();
    for (;;)
        board_loop();
}
