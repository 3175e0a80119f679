/**
 * Penmarrow on paper: the times of the example file, put in order by hand with
 * amber 3 s and red with amber 2 s (Traffic Advisory Leaflet 1/06 part 2).
 */
import type { PaperSite } from './ideal.ts';

export const PENMARROW: readonly PaperSite[] = [
  {
    // Market Cross: greens 18 and 12 s, intergreens 6 s, so 1 s of red for all.
    firstLamp: 0,
    rows: [
      { ms: 18_000, lit: '..GR..' },
      { ms: 3_000, lit: '.A.R..' },
      { ms: 1_000, lit: 'R..R..' },
      { ms: 2_000, lit: 'R..RA.' },
      { ms: 12_000, lit: 'R....G' },
      { ms: 3_000, lit: 'R...A.' },
      { ms: 1_000, lit: 'R..R..' },
      { ms: 2_000, lit: 'RA.R..' },
    ],
  },
  {
    // Chapel Corner: greens 25 and 9 s, intergreens 5 s.
    firstLamp: 6,
    rows: [
      { ms: 25_000, lit: '..GR..' },
      { ms: 3_000, lit: '.A.R..' },
      { ms: 2_000, lit: 'R..RA.' },
      { ms: 9_000, lit: 'R....G' },
      { ms: 3_000, lit: 'R...A.' },
      { ms: 2_000, lit: 'RA.R..' },
    ],
  },
  {
    // Harbour Crossing: 750 ms each (BS 8442:2015 clause 12, quoted), one after the other.
    firstLamp: 12,
    rows: [
      { ms: 750, lit: 'B.' },
      { ms: 750, lit: '.B' },
    ],
  },
];
