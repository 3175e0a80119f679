/* What each quick word does. */
#ifndef VERBS_H
#define VERBS_H

#include "hal.h"

/* Outcomes beside 0 and the codes. */
#define VERB_WAIT 0xFF  /* the EEPROM is busy; try again */

/* Does the word and gives its answer's fields, if any: `answer_ok` has been
 * called when `*answered` is set. The code when it is refused. */
uint8_t verbs_do(uint8_t verb, bool *answered);

#endif
