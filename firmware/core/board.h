/* The board: its story from power-on, its tick, its loop. */
#ifndef BOARD_H
#define BOARD_H

#include "hal.h"

/* Board time, ms. It begins at 0; tests set it before `board_boot`. */
extern uint32_t board_now;
/* The master state in force, and the host's (NONE: it has set none). */
extern uint8_t board_master;
extern uint8_t board_host_master;
extern bool board_paused;

/* Loads the kept table, if any, and greets the host. */
void board_boot(void);
/* One turn of the main loop: ticks that are due, then a little of the rest,
 * then sleep when there is nothing to do. */
void board_loop(void);

/* The board's FLAGS, and seconds since it started. */
uint8_t board_flags(void);
uint32_t board_seconds(void);

/* Without a host nothing of what one can override stays overridden. */
void board_release_if_alone(void);
/* A valid line has come. */
void board_host_heard(void);
/* Runs the image in RAM from its start. */
void board_start_table(void);
/* Dark and waiting, all pins free. */
void board_stop_table(void);
/* All groups and sites from their start. */
void board_again(void);

#endif
