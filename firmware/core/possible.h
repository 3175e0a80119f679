/* The watch for states that no site can be in. */
#ifndef POSSIBLE_H
#define POSSIBLE_H

#include <stdint.h>

/* Looks at one site: a state that cannot be puts it to its fault aspect; what
 * follows from other things is worked out anew. */
void site_look(uint8_t site);

#endif
