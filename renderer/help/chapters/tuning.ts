import { type Chapter, heading, list, words } from '../block.ts';

export const tuning: Chapter = {
  id: 'tuning',
  title: 'Tuning the times',
  words: [
    'dial',
    'green',
    'hold',
    'step',
    'keep',
    'put back',
    'planned',
    'running',
    'kept',
    'compare',
    'limits',
    'nudge',
  ],
  blocks: [
    list(
      'Each dial: − and +, held down to go on; ↑ and ↓ one step; Page Up and Page Down five; or type a time: 18, 18.5 s, 1:05.',
      'Hold (H) keeps the running interval for looking. Press it again to go on. A board that hears nothing from here lets go by itself after 5 seconds.',
      'Hold next green (Shift+H) waits for another green of the site and holds it when it comes.',
      'Step (S) ends the running interval. Restart (R) begins the site from its first interval, Restart all sites (Shift+R) all of them at one moment.',
    ),
    heading('Planned, running, kept'),
    list(
      'Planned is what the layout file says. Running is what the board does now. Kept is what it starts with.',
      'What differs (E) has the three side by side. Take running times into the plan (Shift+K) writes them into the layout.',
      'Keep (K) makes the running times the kept ones. Put back (B) lets the kept ones run again. Kept before (Shift+B) has those of other days.',
      'Changed times (J) lists every change of this session. Any moment of it can be gone back to.',
    ),
    heading('Comparing two sets'),
    words(
      'Note the running times as A, change some, note them as B. X switches between the two while you watch. A and B (Shift+E) shows what differs.',
    ),
    heading('Limits'),
    words(
      'Each dial has a least and a greatest time from the practice of the country, with its source. Press the name of the dial to see them, or to set limits of your own with a reason, which goes into the log. Times between greens that would conflict are worked out, and no limit of your own makes them shorter.',
    ),
    heading('Streets and traffic'),
    list(
      'Phases (Shift+P): the chart of the site, with handles on its times.',
      'Share out by traffic (V): greens from how busy the roads are.',
      'Green wave (G): junctions of one street on one cycle, with offsets for the speed of its traffic.',
    ),
  ],
};
