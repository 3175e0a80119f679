/* The guard: looks in the background on whether the table, the sites and the
 * kept table are as they must be, and mends what can be mended (PROTOCOL.md,
 * chapter 6). */
#ifndef GUARD_H
#define GUARD_H

#include "hal.h"

/* The CRC that the running image must have. */
extern uint16_t guard_sum;
/* Deeds since the board started (DEED_...) in the high four bits; those that
 * are still to be told in the low four. */
extern uint8_t guard_deeds;
/* Faults since the board started, 255 for that or more; the last one: site in
 * the low five bits, fault in the others. */
extern uint8_t guard_faults;
extern uint8_t guard_last;

/* A whole image has come into RAM. */
void guard_image(uint16_t crc);
/* Writes a word of the running image; its CRC goes along. */
void guard_put_word(uint16_t at, uint16_t word);
/* A job begins: what was seen of the store counts no more. */
void guard_job_begins(void);
/* The running image cannot be whole. */
void guard_damaged(void);
void guard_note_fault(uint8_t site, uint8_t fault);
/* A little of the round, in one tick of eight. */
void guard_poll(void);
/* The outcome of a keep that the guard wanted. */
void guard_kept(uint8_t code);

#endif
