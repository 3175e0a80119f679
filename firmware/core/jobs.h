/* Slow requests: one at a time, in slices short enough for the ticks. */
#ifndef JOBS_H
#define JOBS_H

#include "hal.h"

#define JOB_BYTES 20

/* What a request hands to its job. */
struct job_order {
    uint8_t verb;
    uint8_t sequence;
    uint16_t line;              /* its CRC, which tells a repeat */
    bool kept;                  /* sum: of the kept image */
    uint16_t offset;            /* part */
    uint16_t length;            /* begin */
    uint16_t crc;               /* begin */
    uint8_t count;              /* part */
    uint8_t bytes[JOB_BYTES];   /* part: its bytes; label: identity and name */
};

/* 0 when the job has begun, or why not. */
uint8_t jobs_begin(const struct job_order *order);
/* The same line is being worked on. */
bool jobs_working_on(uint16_t line);
/* One slice; `waits`: a request needs the EEPROM or the line first. True while
 * there is work that does not wait for the EEPROM. */
bool jobs_poll(bool waits);
bool jobs_upload_begun(void);
void jobs_drop_upload(void);
void jobs_host_gone(void);
bool jobs_busy(void);

#endif
