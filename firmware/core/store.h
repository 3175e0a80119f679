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
#define STORE_MARK_SECRET 0x5A
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
/* The running image has become that of this slot; no slot counts any more. */
void store_kept(uint8_t slot);
void store_erased(void);
/* Looks on whether both agree; true while there is more to look at. */
bool store_compare(void);

uint8_t store_spare(void);
image_source store_source(uint8_t slot);
uint16_t slot_at(uint8_t slot);
uint16_t record_at(uint8_t slot);
/* Does the mark of the record fit, and which byte would? */
bool store_mark_fits(uint8_t slot);
uint8_t store_mark(uint8_t slot);
/* The image's CRC in the record of the slot. */
uint16_t store_image_crc(uint8_t slot);
bool store_check_label(void);
/* CRC of the label's first 24 bytes. */
uint16_t store_label_crc(image_source source);

/* One byte to the store, when it is ready. */
enum put { PUT_DONE, PUT_WRITING, PUT_FAILED };
enum put store_put(uint16_t at, uint8_t value);

#endif
