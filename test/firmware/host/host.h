/* A board made of arrays: what the host HAL and the harness share. */
#ifndef HOST_H
#define HOST_H

#include "hal.h"

#define HOST_PINS (CAPACITY_PINS + 1)

/* Back to what they are after a reset; the EEPROM keeps its bytes. */
void host_reset(uint8_t cause);
/* One millisecond on: a tick is due, the wire moves, the EEPROM goes on.
 * False when the power was cut in it. */
bool host_millisecond(void);

/* The level that each pin has from outside, while it is an input. */
extern bool host_level[HOST_PINS];
/* What an output pin or bit of the chain shows; -1 when it drives nothing. */
int host_output(uint8_t output);

extern uint8_t host_eeprom[EEPROM_BYTES];
/* EEPROM operations done so far; an erase and a write are two. */
extern unsigned host_operations;
/* The power fails in this operation from now on (1: the next); 0: never. The
 * byte is then left with the value `host_garbage`, or -1: as it was before. */
extern unsigned host_cut;
extern int host_garbage;

/* What a probe finds, of a lamp lit when low and of one lit when high, and how
 * often there is no time for it. */
extern struct probe host_probe[2];
extern unsigned host_probe_later;
/* What the internal reference reads. */
extern uint16_t host_supply;

/* A real wire carries 57,600 baud both ways through rings of the board's size;
 * otherwise bytes pass at once and without limit. */
extern bool host_wire;
void host_feed(uint8_t byte);
bool host_fed(void);
/* Takes a line that the board has sent, without its newline; 0 when none. */
const char *host_line(void);

#endif
