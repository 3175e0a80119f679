/* The interpreter: each site goes through the rows of its program
 * (PROTOCOL.md, chapter 4). */
#ifndef SITES_H
#define SITES_H

#include "hal.h"

/* Marks are board times in ms; short ones are compared within 60 s only. RAM is
 * short, so what no two kinds of rows need together shares its place. */
struct site {
    uint32_t begin;         /* of the row; in the future before a delayed start */
    union {
        uint32_t wait;      /* no look is of use before it, ms; not in extend rows */
        uint32_t maximum;   /* extend: when opposition appeared */
    };
    uint16_t generator;
    uint16_t row_at;        /* places in the image */
    uint16_t program_at;
    uint16_t part;          /* when the lit or dark part of flashing began */
    union {
        uint16_t gap;       /* extend: when the detectors fell silent */
        uint8_t levels;     /* until: of the inputs when the row began */
        uint8_t fault;      /* at its fault aspect: why */
    };
    uint8_t row;
    uint8_t flags;
};

enum {
    SITE_DELAYED = 1,   /* waits for its delayed start */
    SITE_LAPSED = 2,
    SITE_MAXIMUM = 4,   /* the maximum is running */
    SITE_STEPPED = 8,
    SITE_FLASHING = 16,
    SITE_LIT_PART = 32,
    SITE_CHANGED = 64,  /* what it shows is to be looked at anew */
    SITE_FAULT = 128,   /* at its fault aspect */
};

extern struct site sites[CAPACITY_SITES];
extern uint8_t sites_count;

/* The site at hand: its record in the image and its first lamp. They follow
 * from the sites before it and are not stored for each. */
extern uint8_t site_at_hand;
extern uint16_t site_record;
extern uint8_t site_first_lamp;
void sites_go_to(uint8_t site);
/* Where a program of the running image lies. */
uint16_t sites_program(uint8_t program);
/* Where the first record lies, found anew. */
void sites_find_first(void);
/* Puts a copy of a site at a row of its program. */
void sites_find_row(struct site *site, uint8_t row);
static inline void sites_select(uint8_t site)
{
    if (site != site_at_hand)
        sites_go_to(site);
}

/* All sites from their start, with new generators and no holds. */
void sites_start(void);
/* One site, or all of them, from the start; generators and holds stay. */
void sites_again(uint8_t site);
void sites_again_all(void);
void sites_tick(bool paused);
/* The dials of a site, or of all, have changed. */
void sites_dials_changed(uint8_t site);
void sites_all_dials_changed(void);
void sites_hold(uint8_t site, bool held);
bool sites_held(uint8_t site);
void sites_release_all(void);
/* Ends the running interval in the next tick. */
void sites_step(uint8_t site);
void sites_fault(uint8_t site, uint8_t fault);
/* At fault: shows its safe aspect, soon to start by itself; or has done so too
 * often and stays until `sites_again`. */
bool sites_clearing(uint8_t site);
bool sites_stays(uint8_t site);
/* A new span: every site but those that stay may come back by itself anew. */
void sites_forgive(void);
uint8_t sites_fault_of(uint8_t site);
bool sites_any_fault(void);
/* Lamps of all sites together. */
uint8_t sites_lamps(void);
/* Time in the row, ms; negative before a delayed start. */
int32_t sites_elapsed(uint8_t site);
/* The minimum has passed and the site waits for its condition. */
bool sites_waiting(uint8_t site);
/* Where a dial of the site at hand stands in the image, and its value in ms. */
uint16_t sites_dial_at(const struct site *site, uint8_t dial);
uint32_t sites_dial_ms(const struct site *site, uint8_t dial);

#endif
