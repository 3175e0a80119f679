/** A small table that uses every part and every operation, and its image worked out by hand from PROTOCOL.md. */
import type { BoardTable } from '../../shared/table/model.ts';
import { states } from '../fixtures/sites/build.ts';

export const byHand: BoardTable = {
  chip: 'atmega328p',
  sweep: 250,
  nightLevel: 96,
  nightInput: null,
  offInput: 0,
  chain: { chips: 1, data: 4, clock: 5, latch: 6, enable: null },
  lamps: [
    { name: 'red', output: 2, activeLow: true, type: 'led', brightness: 31 },
    { name: 'amber', output: 129, activeLow: false, type: 'smallFilament', brightness: 16 },
    { name: 'green', output: 3, activeLow: false, type: 'led', brightness: 31 },
    { name: 'wait', output: 128, activeLow: false, type: 'largeFilament', brightness: 0 },
    { name: 'sync', output: 7, activeLow: false, type: 'led', brightness: 31 },
  ],
  inputs: [{ name: 'button', pin: 19, activeLow: true, pullUp: true, debounce: 20, indicator: 3 }],
  groups: [
    { name: 'street', cycle: { name: 'cycle', value: 60_000, min: 10_000, max: 600_000 }, syncOut: 4, syncIn: null },
  ],
  programs: [
    {
      name: 'everything',
      lamps: ['red', 'amber', 'green'],
      dials: [
        { name: 'short', min: 10, max: 2000 },
        { name: 'long', min: 0, max: 400_000 },
        { name: 'blink', min: 200, max: 900 },
      ],
      inputs: ['button'],
      flash: { on: 0, off: 2 },
      fault: states('.a.'),
      safe: states('R..'),
      conflicts: [[0, 2]],
      rows: [
        { op: 'after', dial: 0, states: states('R..') },
        { op: 'until', min: 1, when: { kind: 'demand', inputs: [0] }, states: states('.-.') },
        { op: 'untilMax', min: 1, max: 2, when: { kind: 'inactive', inputs: [0] }, states: states('..G') },
        { op: 'extend', min: 0, gap: 2, max: 1, detectors: [0], opposing: [], states: states('RA.') },
        { op: 'random', low: 0, high: 2, states: states('...') },
        { op: 'sync', min: 0, offset: 1, states: states('..G') },
        { op: 'jump', when: { kind: 'chance', outOf256: 64 }, to: 2 },
        { op: 'clear', inputs: [0] },
        { op: 'latch', inputs: [0] },
      ],
    },
  ],
  sites: [
    {
      name: 'corner',
      program: 0,
      start: 1,
      offset: 1500,
      atNight: 'safe',
      group: 0,
      inputs: [0],
      dials: [500, 330_000, 900],
    },
  ],
};

/** Each part: what it is, the bytes, and how they come about. */
export const byHandParts: readonly (readonly [part: string, bytes: string])[] = [
  // Format 1, 1 program, 1 site, 5 lamps, 1 input, 1 group, 1 chip, sweep 25 x 10 ms, night 96, no night input, off input 0.
  ['header', '01 01 01 05 01 01 01 19 60 FF 00 00'],
  ['chain', '04 05 06 FF'],
  // Pin 2, active low + 31 | bit 1 of the chain, small filament + 16 | pin 3 | bit 0, large filament | pin 7.
  ['lamps', '02 9F 81 30 03 1F 80 40 07 1F'],
  // Pin 19, active low + pull-up, 20 ms, lamp 3.
  ['inputs', '13 03 14 03'],
  // 6000 x 10 ms, 1000 x 10 ms, 600 s (bit 15 set), lamp 4, no sync input.
  ['groups', '70 17 E8 03 58 82 04 FF'],
  [
    'programs',
    [
      // 53 bytes, 3 lamps, 3 dials, 1 input, 9 rows, flash dials 0 and 2, 1 pair.
      '35 00 03 03 01 09 02 01',
      // 10 to 2,000 ms | 0 to 400 s | 200 to 900 ms.
      '01 00 C8 00 00 00 90 81 14 00 5A 00',
      // Fault: amber flashes (2 in bits 3-2). Safe: red lit. The pair.
      '08 01 00 02',
      '00 01', // after dial 0: red lit
      '11 00 01 0C', // until, minimum dial 1, any demand of input 0: amber alternates
      '12 23 01 10', // until at most, minimum dial 1, none active + 16 x dial 2: green lit
      '03 12 01 00 05', // extend, minimum dial 0, gap dial 2 + 16 x dial 1: red and amber lit
      '04 02 00', // random from dial 0 to dial 2: dark
      '05 01 10', // sync, minimum dial 0, offset dial 1: green lit
      '06 05 40 02', // jump by chance of 64 in 256 to row 2
      '07 01', // clear
      '08 01', // latch
    ].join(' '),
  ],
  // Program 0, start row 1, 150 x 10 ms, safe at night + group 0, input 0, 50 x 10 ms, 330 s, 90 x 10 ms.
  ['sites', '00 01 96 00 02 00 32 00 4A 81 5A 00'],
];

export const byHandImage = Uint8Array.from(
  byHandParts.flatMap(([, bytes]) => bytes.split(' ')),
  (byte) => Number.parseInt(byte, 16),
);
