/* Slow requests: one at a time, in slices short enough for the ticks. */
#ifndef JOBS_H
#define JOBS_H

#include "hal.h"

#define LABEL_TEXT 20

/* What a request hands to its job. */
union job_arguments {
    struct { uint16_t length, crc; } begin;
    struct { uint16_t offset; uint8_t count, bytes[LINK_PART_BYTES]; } part;
    uint8_t label[LABEL_TEXT]; /* identity and name */
    bool kept;                 /* sum: of the kept image */
    uint16_t reference;        /* meter: what it shows, then the reference by it */
};

struct job_order {
    uint8_t verb;
    uint8_t sequence;
    uint16_t line;             /* its CRC, which tells a repeat */
    union job_arguments arguments;
};

/* After `store_boot`: brings an older store up to date; until that is done, slow
 * requests find it busy. */
void jobs_boot(void);
/* 0 when the job has begun, or why not. */
uint8_t jobs_begin(const struct job_order *order);
/* The same line is being worked on. */
bool jobs_working_on(uint16_t line);
/* One slice; `waits`: a request needs the EEPROM or the line first. True while
 * there is work that does not wait for the EEPROM. */
bool jobs_poll(bool waits);
/* No job is at work and none waits to be answered. */
bool jobs_idle(void);
/* Keeps the running image as a `keep` would, but for nobody. */
void jobs_keep_anew(void);
bool jobs_upload_begun(void);
void jobs_drop_upload(void);
void jobs_host_gone(void);

#endif
