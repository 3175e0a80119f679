/* What slices of slow work share: how far the job at hand has come, and the
 * steps that several jobs are made of. Only jobs.c and the jobs use it. */
#ifndef WORK_H
#define WORK_H

#include "check.h"
#include "jobs.h"
#include "store.h"
#include "walk.h"

/* Bytes looked at in a slice: under 0.2 ms. */
#define BYTES_A_SLICE 8

/* The outcome of a slice: go on, wait for the EEPROM, or the end. */
enum { WORKING, WRITING, DONE, REFUSED };

extern struct work {
    uint8_t step;
    uint8_t code;      /* why it is refused */
    uint16_t place;
    uint16_t at;       /* within the step */
    uint16_t crc;
    uint16_t shape;
    uint8_t slot;      /* the slot that it is about */
    uint8_t changes;   /* image_changes when it began to look */
    /* No job needs two of them at once. */
    union {
        union job_arguments order;
        uint8_t record[RECORD_BYTES];
        struct check check;
        struct walk walk;
    };
} work;

extern struct upload {
    bool begun;
    uint16_t length;
    uint16_t crc;
} work_upload;

uint8_t work_refuse(uint8_t code);
void work_next_step(void);
/* One byte to the store. */
uint8_t work_put(uint16_t to, uint8_t value);
/* Spoils the mark of a slot's record; done when it does not fit, in a newer
 * store when it is spoilt. */
uint8_t work_spoil(uint8_t slot);
/* Makes the label of a newer store one of our version; done when it is. */
uint8_t work_take_over(void);
/* The CRC over a slot in `crc`. */
uint8_t work_sum_slot(uint8_t slot, uint16_t length);
/* The walk over an image: its whole CRC in `crc`, that of its shape in `shape`. */
void work_begin_walk(image_source source, uint16_t length);
uint8_t work_sum_walk(void);
/* Replaces the running table at once: nothing of it is seen half. */
void work_load(uint8_t slot, uint16_t length, uint16_t crc);

/* The jobs: a slice each. */
uint8_t upload_begin(void);
uint8_t upload_part(void);
uint8_t upload_start(void);
uint8_t keep_slice(void);
uint8_t back_slice(void);
uint8_t meter_slice(void);

#endif
