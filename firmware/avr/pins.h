/* Single pins, for what needs them one by one. */
#ifndef PINS_H
#define PINS_H

#include <stdbool.h>
#include <stdint.h>

/* `port`: the PORT register; DDR and PIN stand before it. */
struct pin {
    volatile uint8_t *port;
    uint8_t mask;
};

struct pin pin_of(uint8_t number);

static inline void pin_high(const struct pin *pin) { *pin->port |= pin->mask; }
static inline void pin_low(const struct pin *pin) { *pin->port &= (uint8_t)~pin->mask; }
static inline void pin_drive(const struct pin *pin) { pin->port[-1] |= pin->mask; }
static inline void pin_let_go(const struct pin *pin) { pin->port[-1] &= (uint8_t)~pin->mask; }
static inline bool pin_level(const struct pin *pin) { return pin->port[-2] & pin->mask; }

/* As the outputs were committed last. */
void pin_restore(uint8_t number);

#endif
