/* The one place of the firmware's version. */
#ifndef VERSION_H
#define VERSION_H
#define FIRMWARE_VERSION "1.2.0"
#endif
