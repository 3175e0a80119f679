/* The EEPROM: two slots with records, and the label (PROTOCOL.md, chapter 3). */
#ifndef STORE_H
#define STORE_H

#include "image.h"

#define LABEL_AT 0
#define IDENTITY_AT 4
#define IDENTITY_BYTES 4
#define NAME_AT 8
#define NAME_BYTES 16
#define LABEL_BYTES 26
#define RECORD_BYTES 8
#define RECORD_MARK 6
/* Each version of the store has its own, so that no firmware takes the record
 * of another version for one that it can read. */
#define STORE_SECRET(version) ((uint8_t)(0x59 + (version)))
/* The version stands in the label, whose form is the same in all versions. */
#define VERSION_AT 2
#define LABEL_CRC_AT 24
#define SLOT_NONE 2

/* The newest valid slot (0, 1 or SLOT_NONE), the length of its image, and how
 * often a table has been kept. */
extern uint8_t store_newest;
extern uint16_t store_length;
extern uint16_t store_keeps;
extern bool store_label_good;

/* Loads the newest consistent image into RAM; false when there is none. */
bool store_boot(void);
/* storeFault, labelFault and unkept. */
uint8_t store_flags(void);
/* The running image has changed against the kept one, or has been kept. */
void store_differs(void);
void store_agrees(void);
/* The store is of a version that this firmware does not know: nothing in it is
 * read but the label, and nothing written until a host asks for it. */
bool store_newer(void);
/* It has been taken over. */
void store_taken(void);
/* The running image has become that of this slot; no slot counts any more. */
void store_kept(uint8_t slot);
void store_erased(void);
/* The kept image cannot be used, the running one is kept nowhere. */
void store_lost(void);
/* The start anew from what is kept, in place; false when nothing is kept whole. */
bool store_again(void);
/* The kept image has this CRC: the record of its slot fits. */
bool store_counts(uint16_t crc);
/* The kept image was found damaged and stays so. */
void store_damaged(void);
/* Looks on whether both agree; true while there is more to look at. */
bool store_compare(void);

uint8_t store_spare(void);
image_source store_source(uint8_t slot);
uint16_t slot_at(uint8_t slot);
uint16_t record_at(uint8_t slot);
/* The byte that would be the mark of the record. */
uint8_t store_mark(uint8_t slot, uint8_t version);
/* The image's CRC in the record of the slot. */
uint16_t store_image_crc(uint8_t slot);
/* The version that the label names; 0 where it is blank or damaged. */
uint8_t store_label_version(void);
/* CRC of the label's first 24 bytes. */
uint16_t store_label_crc(image_source source);

/* One byte to the store, when it is ready. */
enum put { PUT_DONE, PUT_WRITING, PUT_FAILED };
enum put store_put(uint16_t at, uint8_t value);

#endif
