#include "possible.h"

#include "board.h"
#include "image.h"
#include "rules.h"
#include "sites.h"

/* The row is one of the program, its place is where that row lies, and it is an
 * interval. */
static bool row_fits(const struct site *site)
{
    struct site right = *site;
    if (site->row >= image_bytes[site->program_at + PROGRAM_ROWS])
        return false;
    sites_find_row(&right, site->row);
    return right.row_at == site->row_at && (image_bytes[site->row_at] & 15) <= OP_SYNC;
}

/* How long the row holds follows from dials and generator; the others are looked
 * at anew in the next tick. */
static void mend_wait(struct site *site)
{
    uint8_t operation = image_bytes[site->row_at] & 15;
    if (operation == OP_UNTIL || operation == OP_UNTIL_MAX)
        site->wait = 0;
    else
        rules_set_wait(site);
}

static bool start_fits(const struct site *site)
{
    return !(site->flags & SITE_DELAYED) || site->begin - board_now <= word_ms(image_word(site_record + 2))
           || board_now - site->begin <= INT32_MAX;
}

void site_look(uint8_t i)
{
    struct site *site = &sites[i];
    if (i == 0)
        sites_find_first();
    sites_select(i);
    uint16_t program = sites_program(image_bytes[site_record]);
    bool fits = site->program_at == program;
    site->program_at = program;
    /* Where it is zero it stays so. */
    if (!site->generator)
        site->generator = 1;
    if (!(site->flags & SITE_FAULT)) {
        if (fits && row_fits(site) && start_fits(site))
            mend_wait(site);
        else
            sites_fault(i, FAULT_STATE);
    }
    /* Planned anew, and so watched for conflicts. */
    site->flags |= SITE_CHANGED;
}
