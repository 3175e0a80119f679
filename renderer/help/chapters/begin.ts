import { type Chapter, heading, list, steps, words } from '../block.ts';

export const begin: Chapter = {
  id: 'begin',
  title: 'First steps',
  words: ['start', 'how', 'introduction', 'views', 'undo'],
  blocks: [
    words(
      'Amberwick works out when each lamp of a junction, a crossing or a beacon is lit, sends that to a small board, and lets you change every time while you watch the lamps.',
    ),
    steps(
      'Look at Penmarrow first: a small town on a virtual board, which runs the firmware of a real one. Or begin your own with New layout (Ctrl+N).',
      'Take a site in hand: press its name, or ] and [.',
      'Change a time with − and +, the arrow keys, or by typing 18, 18.5 s or 1:05. The lamps follow at once.',
      'Press Keep. The board starts with these times from now on, without the computer, too.',
    ),
    heading('Three distances'),
    list(
      'Across the room (1): the plan, what runs now and the seconds left, readable from far away.',
      'At the layout (2): the dials of the site at hand, as large as a thumb.',
      'At the desk (3): files, boards, findings and the log.',
    ),
    heading('Nothing is lost'),
    words(
      'Ctrl+Z takes back any change of a time or of the layout, Ctrl+Shift+Z makes it again. Only writing firmware cannot be undone, and it asks first.',
    ),
    words('Ctrl+K or / finds any command, site or time by a few letters. Menu at the top has all commands in order.'),
  ],
};
