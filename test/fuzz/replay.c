/* Plays kept inputs and random ones without a fuzzer: `replay FILE... [-random N SEED]`. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "hal.h"

#define MOST 4096

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static uint8_t input[MOST];
static uint64_t state;

static uint32_t dice(void)
{
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return (uint32_t)(state >> 16);
}

static size_t read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) {
        printf("bad no file %s\n", path);
        exit(1);
    }
    size_t size = fread(input, 1, MOST, file);
    fclose(file);
    return size;
}

/* Another than it was: bytes changed, taken out, put in, and all that follows new. */
static size_t change(size_t size)
{
    for (uint32_t count = 1 + dice() % 8; count && size > 2; count--) {
        size_t at = dice() % size;
        switch (dice() % 4) {
        case 0: input[at] ^= (uint8_t)(1 << dice() % 8); break;
        case 1: input[at] = (uint8_t)dice(); break;
        case 2: memmove(input + at, input + at + 1, --size - at); break;
        default:
            if (size < MOST) {
                memmove(input + at + 1, input + at, size++ - at);
                input[at] = (uint8_t)dice();
            }
        }
    }
    return size;
}

int main(int argc, char **argv)
{
    int files = 1;
    LLVMFuzzerInitialize(&argc, &argv);
    for (; files < argc && argv[files][0] != '-'; files++)
        LLVMFuzzerTestOneInput(input, read_file(argv[files]));
    if (files + 2 < argc) {
        state = strtoull(argv[files + 2], 0, 10) * 2654435761u + 1;
        for (unsigned long count = strtoul(argv[files + 1], 0, 10); count; count--) {
            size_t size = 0;
            if (files > 1 && dice() % 4)
                size = change(read_file(argv[1 + dice() % (unsigned)(files - 1)]));
            else
                for (size = 3 + dice() % 1000; state && size < MOST && dice() % 8; size++) {
                }
            if (files == 1 || size < 3 || dice() % 4 == 0)
                for (size_t i = 0; i < size; i++)
                    input[i] = (uint8_t)dice();
            LLVMFuzzerTestOneInput(input, size);
        }
    }
    return 0;
}
