; The page that stands at the beginning of the flash while firmware is being written.
.section .text
.global main
main:
    cli
again:
    wdr
    rjmp again
