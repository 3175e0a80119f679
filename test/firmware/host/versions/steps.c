/* Steps between versions of the store that do not exist: each makes the sweep
 * 100 ms a lamp longer, so that a step done twice or not at all is seen. */
#include "migrate.h"

static bool longer(void)
{
    image_bytes[AT_SWEEP] = (uint8_t)(image_bytes[AT_SWEEP] + 10);
    return true;
}

const store_step store_steps[STORE_VERSION - 1] = {
    longer,
#if STORE_VERSION > 2
    longer,
#endif
};
