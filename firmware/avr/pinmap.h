/* Pin numbers and the port bits they mean (PROTOCOL.md, chapter 5). */
#ifndef PINMAP_H
#define PINMAP_H

#include <stdint.h>

/* PORT_REGISTERS: the PIN register of each port; DDR and PORT are the two bytes
 * behind it. */

/* Port number times 8 plus bit, for each pin. */
#if defined(CHIP_ATMEGA328P)
enum { PORT_B, PORT_C, PORT_D, PORTS };
#define PORT_REGISTERS { 0x23, 0x26, 0x29 }
#define ON(port, bit) (PORT_##port * 8 + bit)
#define PIN_BITS { \
    ON(D, 0), ON(D, 1), ON(D, 2), ON(D, 3), ON(D, 4), ON(D, 5), ON(D, 6), ON(D, 7), \
    ON(B, 0), ON(B, 1), ON(B, 2), ON(B, 3), ON(B, 4), ON(B, 5), \
    ON(C, 0), ON(C, 1), ON(C, 2), ON(C, 3), ON(C, 4), ON(C, 5) }
#else
enum { PORT_A, PORT_B, PORT_C, PORT_D, PORT_E, PORT_F, PORT_G, PORT_H, PORT_J, PORT_K, PORT_L, PORTS };
#define PORT_REGISTERS { 0x20, 0x23, 0x26, 0x29, 0x2C, 0x2F, 0x32, 0x100, 0x103, 0x106, 0x109 }
#define ON(port, bit) (PORT_##port * 8 + bit)
#define PIN_BITS { \
    ON(E, 0), ON(E, 1), ON(E, 4), ON(E, 5), ON(G, 5), ON(E, 3), ON(H, 3), ON(H, 4), ON(H, 5), ON(H, 6), \
    ON(B, 4), ON(B, 5), ON(B, 6), ON(B, 7), ON(J, 1), ON(J, 0), ON(H, 1), ON(H, 0), ON(D, 3), ON(D, 2), \
    ON(D, 1), ON(D, 0), ON(A, 0), ON(A, 1), ON(A, 2), ON(A, 3), ON(A, 4), ON(A, 5), ON(A, 6), ON(A, 7), \
    ON(C, 7), ON(C, 6), ON(C, 5), ON(C, 4), ON(C, 3), ON(C, 2), ON(C, 1), ON(C, 0), ON(D, 7), ON(G, 2), \
    ON(G, 1), ON(G, 0), ON(L, 7), ON(L, 6), ON(L, 5), ON(L, 4), ON(L, 3), ON(L, 2), ON(L, 1), ON(L, 0), \
    ON(B, 3), ON(B, 2), ON(B, 1), ON(B, 0), ON(F, 0), ON(F, 1), ON(F, 2), ON(F, 3), ON(F, 4), ON(F, 5), \
    ON(F, 6), ON(F, 7), ON(K, 0), ON(K, 1), ON(K, 2), ON(K, 3), ON(K, 4), ON(K, 5), ON(K, 6), ON(K, 7) }
#endif

#endif
