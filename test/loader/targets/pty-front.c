/* A pseudo-terminal in front of standard input and output, which tells when a program opens and closes
 * the device and at which rate. Lines to standard output, all text:
 *     path /dev/pts/N     once, when it can be opened
 *     open RATE           a program has opened it
 *     rate RATE           it has set another rate
 *     data HEX            bytes from it
 *     closed              nobody has it open any more
 * Standard input: bytes for the device. The device is gone when this program ends. */
#define _GNU_SOURCE
#include <asm/termbits.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <unistd.h>

static unsigned rate_of(int master)
{
    struct termios2 settings;
    return ioctl(master, TCGETS2, &settings) < 0 ? 0 : settings.c_ospeed;
}

static void set_raw(int master)
{
    struct termios2 settings;
    if (ioctl(master, TCGETS2, &settings) < 0)
        return;
    settings.c_iflag = 0;
    settings.c_oflag = 0;
    settings.c_lflag = 0;
    ioctl(master, TCSETS2, &settings);
}

int main(void)
{
    unsigned char bytes[4096];
    int is_open = 0;
    unsigned rate = 0;
    int master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);

    if (master < 0 || grantpt(master) < 0 || unlockpt(master) < 0)
        return 1;
    setvbuf(stdout, NULL, _IOLBF, 0);
    /* A device that nobody has opened yet does not count as closed: open and close it once. */
    close(open(ptsname(master), O_RDWR | O_NOCTTY));
    set_raw(master);
    printf("path %s\n", ptsname(master));
    for (;;) {
        struct pollfd watched[2] = { { .fd = master, .events = POLLIN }, { .fd = STDIN_FILENO, .events = POLLIN } };
        int has_holder;

        poll(watched, 2, 2);
        if (watched[0].revents & POLLIN) {
            ssize_t count = read(master, bytes, sizeof bytes);
            unsigned now = rate_of(master);
            if (count > 0) {
                if (!is_open)
                    printf("open %u\n", now);
                else if (now != rate)
                    printf("rate %u\n", now);
                is_open = 1;
                rate = now;
                printf("data ");
                for (ssize_t index = 0; index < count; index++)
                    printf("%02x", bytes[index]);
                printf("\n");
            }
        }
        has_holder = !(watched[0].revents & POLLHUP);
        if (has_holder) {
            unsigned now = rate_of(master);
            if (!is_open)
                printf("open %u\n", now);
            else if (now != rate)
                printf("rate %u\n", now);
            rate = now;
        } else if (is_open) {
            printf("closed\n");
            set_raw(master);
        }
        is_open = has_holder;
        if (watched[1].revents & (POLLIN | POLLHUP)) {
            ssize_t count = read(STDIN_FILENO, bytes, sizeof bytes);
            if (count <= 0)
                return 0;
            /* What nobody reads is lost, as on a real line. */
            if (has_holder && write(master, bytes, (size_t)count) < 0 && errno != EAGAIN)
                return 1;
        }
        /* With nobody there the poll returns at once. */
        if (!has_holder)
            usleep(2000);
    }
}
