/* Stores of older versions (PROTOCOL.md, chapter 3). The image is brought up to
 * date in RAM, runs at once and is then kept as any other, so a power cut leaves
 * the old record or the new one. Afterwards the label is told the new version. */
#ifndef MIGRATE_H
#define MIGRATE_H

#include "store.h"

/* How many versions of the store are read, the newest included. */
#define STORE_VERSIONS_READ STORE_VERSION

#if STORE_VERSION > 1

/* Turns `image_bytes` and `image_length` of one version into the next; false
 * when it cannot. The first belongs to version 1. */
typedef bool (*store_step)(void);
extern const store_step store_steps[STORE_VERSION - 1];

/* Brings the image in RAM from a version to ours. */
bool migrate_image(uint8_t version);
/* What the label says, or will say when what was begun is done. */
uint8_t migrate_label(uint8_t version);
/* Notes what there is to do after a start from a record of `version`. */
void migrate_wanted(uint8_t version, uint8_t label);
enum chore { CHORE_NONE, CHORE_KEEP, CHORE_LABEL };
enum chore migrate_next(void);
/* A slice of CHORE_LABEL. */
uint8_t migrate_label_slice(void);

#else

static inline bool migrate_image(uint8_t version) { return version == STORE_VERSION; }
static inline uint8_t migrate_label(uint8_t version) { return version; }
static inline void migrate_wanted(uint8_t version, uint8_t label) { (void)version; (void)label; }

#endif

#endif
