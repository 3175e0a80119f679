/* A board under libsimavr: the shipped image, bytes and levels at given cycles, and a trace of what leaves it.
 *
 *   rig atmega328p|atmega2560 IMAGE.hex
 *
 * Commands on standard input; CYCLE counts on at 16 MHz through resets and power cuts
 *   eeprom HEX           its bytes from address 0 on, the rest FF (power off)
 *   power 0|1            the switch
 *   reset                a pulse at the reset pin; RAM and EEPROM stay
 *   feed CYCLE HEX       a byte whose stop bit ends at this cycle; one byte's time and more ahead
 *   pin CYCLE B5 0|1     level of a pin from outside
 *   run CYCLE            to this cycle, at most an instruction more
 *   dump                 prints `e HEX`, the EEPROM
 *
 * The trace
 *   p CYCLE B5 0|1|z     a pin is driven otherwise than before; CYCLE is the begin of the instruction
 *   b CYCLE HH           the program has given a byte to the transmitter
 *   r CYCLE              a run is done
 *   bad WHAT             and the end */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <simavr/avr_adc.h>
#include <simavr/avr_eeprom.h>
#include <simavr/avr_extint.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_cycle_timers.h>
#include <simavr/sim_hex.h>
#include <simavr/sim_time.h>

#define HZ 16000000u
#define MCUSR 0x54
#define UCSR0A 0xC0
#define U2X0 0x02
#define UCSR0B 0xC1
#define UBRR0L 0xC4
#define UBRR0H 0xC5
#define BITS_PER_BYTE 10
#define CAUSE_POWER 0x01
#define CAUSE_RESET 0x02
#define PORTS 12
#define INTERRUPT_PINS 8
#define FEEDS 4096
/* 16 MHz / 8 / 35 and ten bits: a byte's time at the divisor of the firmware. */
#define BYTE_CYCLES 2800
/* The emulator's receiver goes on in byte times of its own: what follows at once is handed over this much
 * before its end, when the one before has been read. */
#define BEHIND_CYCLES 2500

static const char *chip, *hex_path;
static avr_t *avr;
static avr_cycle_count_t base; /* cycles before this start */
static uint8_t eeprom[4096];
static unsigned eeprom_bytes;
static uint32_t noise = 0x2545f491;
static char command[1 << 16];

static struct port {
    char letter;
    uint8_t value, direction, outside, wired;
    char level[8];
} ports[PORTS];

struct feed {
    avr_cycle_count_t at;
    uint8_t byte;
};
static struct feed feeds[FEEDS];
static unsigned feed_count, feed_next;
static avr_cycle_count_t last_fed;

static void bad(const char *what)
{
    printf("bad %s\n", what);
    exit(1);
}

static unsigned long long cycle_now(void) { return avr ? base + avr->cycle : base; }

static struct port *port_of(char letter)
{
    for (unsigned i = 0; i < PORTS; i++)
        if (ports[i].letter == letter)
            return &ports[i];
    bad("no such port");
    return 0;
}

static void show_port(struct port *port)
{
    for (int bit = 0; bit < 8; bit++) {
        char level = !(port->direction >> bit & 1) ? 'z' : port->value >> bit & 1 ? '1' : '0';
        if (level == port->level[bit])
            continue;
        port->level[bit] = level;
        printf("p %llu %c%d %c\n", cycle_now(), port->letter, bit, level);
    }
}

static void port_written(avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq;
    struct port *port = param;
    port->value = (uint8_t)value;
    show_port(port);
}

static void direction_written(avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq;
    struct port *port = param;
    port->direction = (uint8_t)value;
    show_port(port);
}

static void byte_sent(avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    printf("b %llu %02X\n", cycle_now(), (unsigned)value & 0xFF);
}

/* The emulator works out a byte's time when the divisor is written, from what UCSR0A and C hold then. The
 * firmware sets double speed afterwards, as it may: here it is worked out again when the line is switched on. */
static void line_switched(avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)value, (void)param;
    for (avr_io_t *io = avr->io_port; io; io = io->next) {
        avr_uart_t *uart = (avr_uart_t *)io;
        if (strcmp(io->kind, "uart") || uart->name != '0')
            continue;
        unsigned divisor = avr->data[UBRR0L] + 256u * avr->data[UBRR0H] + 1;
        uart->cycles_per_byte = divisor * (avr->data[UCSR0A] & U2X0 ? 8 : 16) * BITS_PER_BYTE;
    }
}

static void no_sleep(avr_t *of, avr_cycle_count_t how_long) { (void)of, (void)how_long; }

static void drive(struct port *port, int bit)
{
    avr_ioport_external_t external
        = { .name = (unsigned char)port->letter, .mask = port->wired, .value = port->outside };
    avr_ioctl(avr, AVR_IOCTL_IOPORT_SET_EXTERNAL(port->letter), &external);
    if (port->wired >> bit & 1 && !(port->direction >> bit & 1))
        avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(port->letter), bit), port->outside >> bit & 1);
}

static void connect_ports(void)
{
    for (unsigned i = 0; i < PORTS; i++) {
        struct port *port = &ports[i];
        port->letter = (char)('A' + i);
        port->value = port->direction = 0;
        avr_irq_t *written = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(port->letter), IOPORT_IRQ_REG_PORT);
        if (!written)
            continue;
        avr_irq_register_notify(written, port_written, port);
        avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(port->letter), IOPORT_IRQ_DIRECTION_ALL),
            direction_written, port);
        for (int bit = 0; bit < 8; bit++)
            if (port->wired >> bit & 1)
                drive(port, bit);
    }
}

static void load_image(void)
{
    ihex_chunk_p chunks = 0;
    int count = read_ihex_chunks(hex_path, &chunks);
    if (count <= 0)
        bad("image cannot be read");
    for (int i = 0; i < count; i++) {
        if (chunks[i].baseaddr + chunks[i].size > avr->flashend + 1)
            bad("image beyond the flash");
        memcpy(avr->flash + chunks[i].baseaddr, chunks[i].data, chunks[i].size);
    }
    free_ihex_chunks(chunks);
    avr->codeend = avr->flashend;
}

/* As after power-on: anything, from the same generator as in the other emulator. */
static void fill_with_noise(void)
{
    for (unsigned at = 0; at <= avr->ramend; at++) {
        noise ^= noise << 13;
        noise ^= noise >> 17;
        noise ^= noise << 5;
        if (at < 32 || at > avr->ioend)
            avr->data[at] = (uint8_t)noise;
    }
}

static void start(uint8_t cause, const uint8_t *memory)
{
    avr = avr_make_mcu_by_name(chip);
    if (!avr)
        bad("chip unknown to the emulator");
    avr_init(avr);
    avr->frequency = HZ;
    avr->vcc = avr->avcc = avr->aref = 5000;
    avr->log = LOG_NONE;
    avr->sleep = no_sleep;
    /* Interrupt pins at a low level would be looked at in every cycle. The firmware uses none. */
    for (uint8_t number = 0; number < INTERRUPT_PINS; number++)
        avr_extint_set_strict_lvl_trig(avr, number, 0);
    load_image();
    avr_eeprom_desc_t desc = { .ee = eeprom, .offset = 0, .size = eeprom_bytes = avr->e2end + 1 };
    avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &desc);
    uint32_t flags = 0;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    avr_irq_register_notify(
        avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), byte_sent, 0);
    avr_irq_register_notify(avr_iomem_getirq(avr, UCSR0B, 0, AVR_IOMEM_IRQ_ALL), line_switched, 0);
    if (memory)
        for (unsigned at = 0; at <= avr->ramend; at++)
            avr->data[at] = at < 32 || at > avr->ioend ? memory[at] : avr->data[at];
    else
        fill_with_noise();
    avr->data[MCUSR] = cause;
    connect_ports();
}

static void stop(void)
{
    avr_eeprom_desc_t desc = { .ee = 0, .offset = 0, .size = eeprom_bytes };
    avr_ioctl(avr, AVR_IOCTL_EEPROM_GET, &desc);
    memcpy(eeprom, desc.ee, eeprom_bytes);
    base += avr->cycle;
    for (unsigned i = 0; i < PORTS; i++) {
        ports[i].direction = 0;
        avr_cycle_count_t now = base;
        for (int bit = 0; bit < 8; bit++)
            if (ports[i].level[bit] != 'z') {
                ports[i].level[bit] = 'z';
                printf("p %llu %c%d z\n", (unsigned long long)now, ports[i].letter, bit);
            }
    }
    avr_terminate(avr);
    avr = 0;
}

static void reset(void)
{
    uint8_t *memory = malloc(avr->ramend + 1u);
    memcpy(memory, avr->data, avr->ramend + 1u);
    stop();
    start(CAUSE_RESET, memory);
    free(memory);
}

/* Keeps the emulator from going further in one piece. */
static avr_cycle_count_t halt(avr_t *of, avr_cycle_count_t when, void *param)
{
    (void)of, (void)when, (void)param;
    return 0;
}

/* When a byte is handed to the emulator, which tells the program of it one byte time later. */
static avr_cycle_count_t handed_over(const struct feed *feed)
{
    bool follows = feed->at - last_fed <= BYTE_CYCLES;
    return feed->at - (follows ? BEHIND_CYCLES : BYTE_CYCLES);
}

static void run_plain(unsigned long long until)
{
    if (cycle_now() >= until)
        return;
    avr_cycle_timer_register(avr, until - cycle_now(), halt, 0);
    while (cycle_now() < until) {
        int state = avr_run(avr);
        if (state == cpu_Crashed || state == cpu_Done)
            bad("the processor has stopped");
    }
}

static void run(unsigned long long until)
{
    if (!avr) {
        base = until;
        return;
    }
    while (feed_next < feed_count && handed_over(&feeds[feed_next]) < until) {
        struct feed *feed = &feeds[feed_next++];
        run_plain(handed_over(feed));
        last_fed = feed->at;
        avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT), feed->byte);
    }
    if (feed_next == feed_count)
        feed_next = feed_count = 0;
    run_plain(until);
}

static void set_eeprom(const char *text)
{
    unsigned at = 0, value;
    memset(eeprom, 0xFF, sizeof eeprom);
    for (; at < sizeof eeprom && sscanf(text, "%2x", &value) == 1; text += 2)
        eeprom[at++] = (uint8_t)value;
}

static void dump(void)
{
    avr_eeprom_desc_t desc = { .ee = 0, .offset = 0, .size = eeprom_bytes };
    if (avr)
        avr_ioctl(avr, AVR_IOCTL_EEPROM_GET, &desc);
    const uint8_t *bytes = avr ? desc.ee : eeprom;
    printf("e ");
    for (unsigned at = 0; at < eeprom_bytes; at++)
        printf("%02X", bytes[at]);
    printf("\n");
}

static void set_pin(char letter, int bit, unsigned level)
{
    struct port *port = port_of(letter);
    port->wired |= (uint8_t)(1 << bit);
    port->outside = (uint8_t)((port->outside & ~(1 << bit)) | level << bit);
    if (avr)
        drive(port, bit);
}

static void obey(void)
{
    unsigned long long cycle;
    unsigned a;
    char letter;
    int bit;
    if (!strncmp(command, "eeprom ", 7)) {
        set_eeprom(command + 7);
    } else if (sscanf(command, "power %u", &a) == 1) {
        if (a && !avr)
            start(CAUSE_POWER, 0);
        else if (!a && avr)
            stop();
    } else if (!strcmp(command, "reset")) {
        reset();
    } else if (sscanf(command, "feed %llu %x", &cycle, &a) == 2) {
        if (feed_count == FEEDS)
            bad("too many bytes");
        feeds[feed_count++] = (struct feed) { cycle, (uint8_t)a };
    } else if (sscanf(command, "pin %llu %c%d %u", &cycle, &letter, &bit, &a) == 4) {
        run(cycle);
        set_pin(letter, bit, a);
    } else if (sscanf(command, "run %llu", &cycle) == 1) {
        run(cycle);
        printf("r %llu\n", cycle_now());
        fflush(stdout);
    } else if (!strcmp(command, "dump")) {
        dump();
    } else {
        bad(command);
    }
}

int main(int count, char **words)
{
    static char out[1 << 16];
    setvbuf(stdout, out, _IOFBF, sizeof out);
    if (count != 3)
        bad("rig CHIP IMAGE.hex");
    chip = words[1];
    hex_path = words[2];
    for (unsigned i = 0; i < PORTS; i++) {
        ports[i].letter = (char)('A' + i);
        memset(ports[i].level, 'z', sizeof ports[i].level);
    }
    memset(eeprom, 0xFF, sizeof eeprom);
    while (fgets(command, sizeof command, stdin)) {
        command[strcspn(command, "\n")] = 0;
        if (command[0])
            obey();
    }
    return 0;
}
