#include "board.h"

#include "events.h"
#include "groups.h"
#include "guard.h"
#include "image.h"
#include "inputs.h"
#include "jobs.h"
#include "lamps.h"
#include "outputs.h"
#include "requests.h"
#include "shown.h"
#include "sites.h"
#include "store.h"
#include "supply.h"

uint32_t board_now;
uint8_t board_master;
uint8_t board_host_master = NONE;
bool board_paused;

static uint32_t seconds;
static uint16_t part_second;
/* Ticks since the last valid line; stops at LINK_SILENCE_MS. */
static uint16_t silence;
/* A table has started, which takes a while: ticks that have come due meanwhile
 * pass it by, and it begins with one that is in time. So its first intervals
 * are as long as all others. */
static bool starting;
/* The lamp that the sweep has reached, or NONE, and how long it is lit on. */
static uint8_t sweep_lamp = NONE;
static uint16_t sweep_left;

static uint16_t sweep_ms(void) { return (uint16_t)(10 * image_bytes[AT_SWEEP]); }

__attribute__((noinline)) void board_boot(void)
{
    silence = LINK_SILENCE_MS;
    uint8_t cause = hal_reset_cause();
    if (store_boot()) {
        board_start_table();
        if ((cause == CAUSE_POWER || cause == CAUSE_UNKNOWN) && sweep_ms() && image_bytes[AT_LAMPS]) {
            sweep_lamp = 0;
            sweep_left = (uint16_t)(sweep_ms() + 1);
        }
    }
    supply_boot();
    jobs_boot();
    events_hello();
}

/* Each lamp that the table uses stands dark before the first tick. */
static void arrange_pins(void)
{
    pulse_forget();
    hal_pins_begin();
    if (image_length) {
        if (image_bytes[AT_CHIPS])
            hal_chain(image_bytes[AT_CHIPS], image_bytes + HEADER_BYTES);
        const uint8_t *lamp = image_bytes + lamps_at(image_ram);
        for (uint8_t i = image_bytes[AT_LAMPS]; i; i--, lamp += LAMP_BYTES) {
            bool high = lamp[1] & LAMP_ACTIVE_LOW;
            if (lamp[0] < CHAIN_BASE)
                hal_pin_output(lamp[0], high);
            else
                hal_output(lamp[0], high);
        }
        const uint8_t *input = image_bytes + inputs_at(image_ram);
        for (uint8_t i = image_bytes[AT_INPUTS]; i; i--, input += INPUT_BYTES)
            hal_pin_input(input[0], input[1] & INPUT_PULL_UP);
    }
    hal_pins_apply();
}

static void start(void)
{
    starting = true;
    sweep_lamp = NONE;
    board_paused = false;
    inputs_start();
    groups_start();
    sites_start();
}

void board_start_table(void)
{
    start();
    lamps_start();
    arrange_pins();
}

void board_stop_table(void)
{
    sweep_lamp = NONE;
    image_length = 0;
    for (uint8_t i = 0; i < HEADER_BYTES; i++)
        image_bytes[i] = 0;
    board_start_table();
}

void board_again(void)
{
    starting = true;
    groups_start();
    sites_again_all();
}

/* True while the sweep goes on. */
static bool sweep(void)
{
    if (sweep_lamp >= image_bytes[AT_LAMPS]) {
        sweep_lamp = NONE;
        return false;
    }
    if (--sweep_left == 0) {
        sweep_left = sweep_ms();
        if (++sweep_lamp == image_bytes[AT_LAMPS]) {
            start();
            lamps_plan_only(NONE);
            return false;
        }
    }
    lamps_plan_only(sweep_lamp);
    return true;
}

static uint8_t master(void)
{
    if (board_host_master != NONE)
        return board_host_master;
    if (inputs_active(image_bytes[AT_OFF_INPUT]))
        return MASTER_OFF;
    return inputs_active(image_bytes[AT_NIGHT_INPUT]) ? MASTER_NIGHT : MASTER_RUN;
}

static void release(void)
{
    inputs_release_all();
    lamps_release_all();
    sites_release_all();
    board_paused = false;
    board_host_master = NONE;
}

void board_release_if_alone(void)
{
    if (silence == LINK_SILENCE_MS)
        release();
}

static void count_silence(void)
{
    if (silence >= LINK_SILENCE_MS || ++silence < LINK_SILENCE_MS)
        return;
    release();
    pulse_end();
    jobs_host_gone();
    requests_host_gone();
    events_host_gone();
}

void board_host_heard(void) { silence = 0; }

/* What sites show in the tick in which they start. */
static void show(void)
{
    if (!image_length || sweep_lamp != NONE)
        return;
    shown_tick(true);
    lamps_plan_left_over();
    lamps_commit();
}

static void tick(void)
{
    board_now++;
    if (++part_second == 1000) {
        part_second = 0;
        if (!((uint16_t)++seconds & (FAULT_RETURN_SPAN / 1000 - 1)))
            sites_forgive();
    }
    count_silence();
    pulse_tick();
    lamps_tick();
    supply_tick();
    uint8_t before = board_master;
    if (starting) {
        sites_tick(true);
    } else if (!image_length) {
        board_master = board_host_master == NONE ? MASTER_RUN : board_host_master;
    } else if (sweep()) {
        if (lamps_changed)
            lamps_commit();
    } else {
        if (inputs_stir)
            inputs_stir--;
        if (image_bytes[AT_INPUTS])
            inputs_tick();
        board_master = master();
        if (image_bytes[AT_GROUPS])
            groups_tick(!board_paused);
        sites_tick(board_paused);
        if (image_bytes[AT_GROUPS])
            groups_settle();
        shown_tick(board_master != before);
        lamps_plan_left_over();
        if (lamps_changed)
            lamps_commit();
    }
    hal_watchdog();
}

void board_loop(void)
{
    uint8_t ticks = 0;
    while (hal_tick()) {
        tick();
        ticks++;
    }
    if (starting && (ticks == 1 || !HAL_START_TAKES_TIME)) {
        starting = false;
        if (ticks)
            show();
    }
    /* Requests come first, so that a slow job leaves the EEPROM to them. */
    bool waits = requests_poll();
    bool works = jobs_poll(waits);
    events_poll(waits);
    /* Right behind a tick, so that it is done long before the next one. */
    if (ticks && !waits)
        guard_poll();
    if (!works)
        hal_sleep();
}

uint32_t board_seconds(void) { return seconds; }

uint8_t board_flags(void)
{
    uint8_t flags = store_flags();
    if (image_length)
        flags |= FLAG_TABLE;
    if (board_paused)
        flags |= FLAG_PAUSED;
    if (lamps_forced() || inputs_forced())
        flags |= FLAG_OVERRIDE;
    if (sites_any_fault())
        flags |= FLAG_FAULT;
    if (jobs_upload_begun())
        flags |= FLAG_UPLOAD;
    return flags;
}
