#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host.h"

#define RECEIVED 64
#define SENDING HAL_SENDING
#define QUEUE 65536
/* EEPROM times in tenths of a millisecond. */
#define ERASE_TIME 17
#define WRITE_TIME 34
/* Hundredths of a byte in a millisecond at 57,600 baud. */
#define WIRE_SPEED 576

bool host_level[HOST_PINS];
uint8_t host_eeprom[EEPROM_BYTES];
unsigned host_operations, host_cut;
int host_garbage = -1;
bool host_wire;
struct probe host_probe[2];
unsigned host_probe_later;
uint16_t host_supply;

static struct {
    bool output, high, pull_up;
} pin_next[HOST_PINS], pin_now[HOST_PINS];
static uint8_t chain_chips, chain_pins[4];
static bool bit_next[8 * CAPACITY_CHIPS], bit_now[8 * CAPACITY_CHIPS];

static bool tick_due;
static uint8_t reset_cause;

static uint8_t feed_queue[QUEUE], send_ring[QUEUE];
static unsigned feed_in, feed_out, feed_arrived, send_in, send_out, wire_in, wire_out;
static char line[4096];
static unsigned line_length;
static bool line_done;

static struct {
    unsigned left; /* tenths of a millisecond; 0 when ready */
    bool erased;
    uint16_t at;
    uint8_t value;
} write_now;

static void fail(const char *what)
{
    printf("bad %s\n", what);
    fflush(stdout);
    abort();
}

void host_reset(uint8_t cause)
{
    memset(pin_now, 0, sizeof pin_now);
    memset(pin_next, 0, sizeof pin_next);
    memset(bit_now, 0, sizeof bit_now);
    memset(bit_next, 0, sizeof bit_next);
    memset(&write_now, 0, sizeof write_now);
    chain_chips = 0;
    tick_due = false;
    feed_in = feed_out = feed_arrived = send_in = send_out = wire_in = wire_out = line_length = 0;
    line_done = false;
    reset_cause = cause;
}

int host_output(uint8_t output)
{
    if (output >= CHAIN_BASE)
        return output - CHAIN_BASE < 8 * chain_chips ? bit_now[output - CHAIN_BASE] : -1;
    return pin_now[output].output ? pin_now[output].high : -1;
}

/* One EEPROM operation; false when the power fails in it. */
static bool operate(uint8_t becomes)
{
    if (host_cut && --host_cut == 0) {
        if (host_garbage >= 0)
            host_eeprom[write_now.at] = (uint8_t)host_garbage;
        return false;
    }
    host_operations++;
    host_eeprom[write_now.at] = becomes;
    return true;
}

static bool eeprom_millisecond(void)
{
    if (!write_now.left)
        return true;
    write_now.left = write_now.left > 10 ? write_now.left - 10 : 0;
    if (!write_now.erased && write_now.left <= WRITE_TIME - ERASE_TIME) {
        write_now.erased = true;
        if (!operate(0xFF))
            return false;
    }
    return write_now.left || operate(write_now.value);
}

static void take_sent(void)
{
    line[line_length++] = (char)send_ring[send_out++ % QUEUE];
    if (line_length == sizeof line)
        fail("line without an end");
    if (line[line_length - 1] == '\n') {
        line[line_length - 1] = 0;
        line_done = true;
    }
}

static void wire_millisecond(void)
{
    wire_in = wire_in + WIRE_SPEED;
    for (; wire_in >= 100 && feed_arrived != feed_in; wire_in -= 100) {
        /* The ring of the board is full: the byte is lost. */
        if (feed_arrived - feed_out == RECEIVED - 1)
            feed_queue[(feed_arrived - 1) % QUEUE] = 0xFF;
        else
            feed_arrived++;
    }
    if (wire_in >= 100)
        wire_in %= 100;
}

bool host_millisecond(void)
{
    if (tick_due)
        fail("tick left undone");
    tick_due = true;
    wire_millisecond();
    wire_out = send_in == send_out ? 0 : wire_out + WIRE_SPEED;
    return eeprom_millisecond();
}

void host_feed(uint8_t byte)
{
    if (feed_in - feed_out == QUEUE)
        fail("feed queue full");
    feed_queue[feed_in++ % QUEUE] = byte;
}

bool host_fed(void) { return feed_out == feed_in; }

const char *host_line(void)
{
    if (line_done) {
        line_done = false;
        line_length = 0;
    }
    while (!line_done && send_out != send_in && (!host_wire || wire_out >= 100)) {
        if (host_wire)
            wire_out -= 100;
        take_sent();
    }
    return line_done ? line : 0;
}

bool hal_tick(void)
{
    bool due = tick_due;
    tick_due = false;
    return due;
}

void hal_watchdog(void) {}
void hal_sleep(void) {}

int16_t hal_receive(void)
{
    if (feed_out == (host_wire ? feed_arrived : feed_in))
        return -1;
    return feed_queue[feed_out++ % QUEUE];
}

uint8_t hal_send_room(void)
{
    unsigned used = send_in - send_out;
    if (!host_wire)
        return used < QUEUE / 2 ? SENDING - 1 : 0;
    return (uint8_t)(SENDING - 1 - used);
}

void hal_send(char c)
{
    if (!hal_send_room())
        fail("character sent without room");
    if ((c < ' ' || c > '~') && c != '\n')
        fail("character that no line may hold");
    send_ring[send_in++ % QUEUE] = (uint8_t)c;
}

void hal_pins_begin(void)
{
    memset(pin_next, 0, sizeof pin_next);
    memset(bit_next, 0, sizeof bit_next);
    chain_chips = 0;
}

void hal_pin_input(uint8_t pin, bool pull_up)
{
    if (pin < 2)
        fail("input on the serial line");
    pin_next[pin].pull_up = pull_up;
}

void hal_pin_output(uint8_t pin, bool high)
{
    if (pin < 2)
        fail("output on the serial line");
    pin_next[pin].output = true;
    pin_next[pin].high = high;
}

void hal_chain(uint8_t chips, const uint8_t pins[4])
{
    chain_chips = chips;
    memcpy(chain_pins, pins, sizeof chain_pins);
}

void hal_pins_apply(void)
{
    memcpy(pin_now, pin_next, sizeof pin_now);
    memcpy(bit_now, bit_next, sizeof bit_now);
}

void hal_output(uint8_t output, bool high)
{
    if (output >= CHAIN_BASE) {
        if (output - CHAIN_BASE >= 8 * chain_chips)
            fail("output beyond the chain");
        bit_next[output - CHAIN_BASE] = high;
    } else {
        if (!pin_now[output].output && !pin_next[output].output)
            fail("output on a pin that is none");
        pin_next[output].high = high;
    }
}

void hal_outputs_commit(void) { hal_pins_apply(); }

bool hal_input(uint8_t pin)
{
    if (pin_now[pin].output)
        fail("input read from an output");
    return host_level[pin];
}

bool hal_eeprom_ready(void) { return !write_now.left; }

uint8_t hal_eeprom_read(uint16_t at)
{
    if (write_now.left)
        fail("EEPROM read while it writes");
    if (at >= EEPROM_BYTES)
        fail("EEPROM read beyond its end");
    return host_eeprom[at];
}

void hal_eeprom_write(uint16_t at, uint8_t value)
{
    if (write_now.left)
        fail("EEPROM written while it writes");
    if (at >= EEPROM_BYTES)
        fail("EEPROM written beyond its end");
    write_now.left = WRITE_TIME;
    write_now.erased = false;
    write_now.at = at;
    write_now.value = value;
}

static void driven_alone(uint8_t pin)
{
    if (pin < 2)
        fail("pin of the serial line driven");
    for (uint8_t i = 0; chain_chips && i < 4; i++)
        if (chain_pins[i] == pin)
            fail("wire of the chain driven");
}

void hal_pin_drive(uint8_t pin, bool high)
{
    driven_alone(pin);
    hal_pin_output(pin, high);
    pin_now[pin] = pin_next[pin];
}

void hal_pin_free(uint8_t pin)
{
    driven_alone(pin);
    memset(&pin_next[pin], 0, sizeof pin_next[pin]);
    pin_now[pin] = pin_next[pin];
}

bool hal_probe(uint8_t pin, bool high, struct probe *found)
{
    driven_alone(pin);
    if (pin_now[pin].pull_up)
        fail("input probed");
    if (host_probe_later) {
        host_probe_later--;
        return false;
    }
    *found = host_probe[high];
    return true;
}

uint16_t hal_supply_reading(void) { return host_supply; }
uint8_t hal_reset_cause(void) { return reset_cause; }
uint8_t hal_watchdogs(void) { return 0; }
uint8_t hal_brownouts(void) { return 0; }
uint16_t hal_stack_unused(void) { return 400; }
