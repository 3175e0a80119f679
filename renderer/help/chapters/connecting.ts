import { type Chapter, heading, list, steps, words } from '../block.ts';

export const connecting: Chapter = {
  id: 'connecting',
  title: 'Connecting a board',
  words: ['port', 'USB', 'serial', 'cable', 'group', 'dialout', 'permission', 'reset', 'capacitor', 'virtual'],
  blocks: [
    steps(
      'Plug the board in with a cable that carries data, not power alone.',
      'Press C for the ports. Those with a USB chip that boards carry come first and are marked "probably a board".',
      'Press Connect at its port. Connecting never writes anything to a board.',
      'Press Send. The layout runs at once. Press Keep to make it stay.',
    ),
    heading('Why most boards start anew when their port is opened'),
    words(
      'Opening a port raises its DTR line, and most boards have a small capacitor from DTR to the reset pin. The lamps begin from their first interval; what was kept is there.',
    ),
    list(
      'Linux and macOS: the system raises DTR with each opening. Amberwick leaves it raised when it closes the port, so only the first opening after plugging in restarts the board.',
      'Windows: Amberwick leaves DTR alone when it opens the port, so the board runs on.',
      'For certain: a capacitor of 10 µF from RESET to GND, plus to RESET. Put it in when the firmware is on the board, and take it out to write firmware.',
    ),
    heading('When it does not open'),
    list(
      'In use: close the serial monitor or the second Amberwick that has the port.',
      'Not allowed, on Linux: the message names the group that the port belongs to and the line to type. Log out and in again after it.',
    ),
    heading('When the cable is pulled'),
    words(
      'A board with power of its own runs on and its lamps with it. Amberwick looks for it and takes it up again when it is back; holds, a pause and single lamps that were switched from here end after 5 seconds.',
    ),
    heading('When a board is broken'),
    words(
      'Plug a new one in and press "Put this board in the place of …" at its port. It gets the firmware, the name and what the old one kept last.',
    ),
    heading('The virtual board'),
    words(
      'It is the firmware itself, run by this program, with lamps that are worked out. Its switch loses what was not kept, as on a real board. It can run faster (.) and slower (,).',
    ),
  ],
};
