/* The interpreter: each site goes through the rows of its program
 * (PROTOCOL.md, chapter 4). */
#ifndef SITES_H
#define SITES_H

#include "hal.h"

/* Marks are board times in ms; short ones are compared within 60 s only. */
struct site {
    uint32_t begin;     /* of the row; in the future before a delayed start */
    uint32_t maximum;   /* when opposition appeared, in extend rows */
    uint16_t gap;       /* when the detectors fell silent */
    uint16_t part;      /* when the lit or dark part of flashing began */
    uint16_t generator;
    uint16_t row_at;    /* places in the image */
    uint16_t program_at;
    uint16_t record_at;
    uint8_t first_lamp;
    uint8_t row;
    uint8_t flags;
    uint8_t levels;     /* of the inputs when the row began */
    uint8_t fault;
};

enum {
    SITE_HELD = 1,
    SITE_DELAYED = 2,   /* waits for its delayed start */
    SITE_LAPSED = 4,
    SITE_MAXIMUM = 8,   /* the maximum is running */
    SITE_STEPPED = 16,
    SITE_FLASHING = 32,
    SITE_LIT_PART = 64,
    SITE_CHANGED = 128, /* what it shows is to be looked at anew */
};

extern struct site sites[CAPACITY_SITES];
extern uint8_t sites_count;

/* All sites from their start, with new generators and no holds. */
void sites_start(void);
/* One site, or all of them, from the start; generators and holds stay. */
void sites_again(uint8_t site);
void sites_again_all(void);
void sites_tick(bool paused);
void sites_hold(uint8_t site, bool held);
void sites_release_all(void);
/* Ends the running interval in the next tick. */
void sites_step(uint8_t site);
void sites_fault(uint8_t site, uint8_t fault);
bool sites_any_fault(void);
/* Lamps of all sites together. */
uint8_t sites_lamps(void);
/* Time in the row, ms; negative before a delayed start. */
int32_t sites_elapsed(uint8_t site);
/* The minimum has passed and the site waits for its condition. */
bool sites_waiting(uint8_t site);
/* Where a dial of the site stands in the image, and its value in ms. */
uint16_t sites_dial_at(const struct site *site, uint8_t dial);
uint32_t sites_dial_ms(const struct site *site, uint8_t dial);

#endif
