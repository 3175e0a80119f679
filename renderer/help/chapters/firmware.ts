import { type Chapter, list, words } from '../block.ts';

export const firmware: Chapter = {
  id: 'firmware',
  title: 'Writing the firmware',
  words: ['flash', 'update', 'boot loader', 'program the board', 'reset button', 'new board'],
  blocks: [
    words(
      'A board that does not answer is offered "Put the firmware on", one with an older version "Update the firmware". It needs the boot loader that boards are sold with, and an ATmega328P, an ATmega328PB or an ATmega2560.',
    ),
    list(
      'The program on the board is replaced; what it has kept stays.',
      'Take the capacitor at the reset pin out first, and put it back afterwards.',
      'If it says so, press the reset button: some ports cannot reset the board. Short presses, one every two seconds, until writing begins; on an ATmega2560 once more at the end.',
      'Pulled out or cancelled half way: the board is empty and its lamps are dark, nothing is broken. Press the same button again. The boot loader is never written over.',
      'While it is written the outputs are open, and inputs of transistors or relays may float. If you are unsure what hangs on them, switch the lamp supply of the layout off.',
      'The ATmega328PB carries 100 mA in all, half of an ATmega328P. Amberwick says so when it meets one.',
    ),
    words('If it does not help: press D for what was said, and save a report from there.'),
  ],
};
