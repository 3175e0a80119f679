/** The tables that a fuzzed board runs: quick ones, so that a lamp that is late or wrong shows within a second. */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { buildStore } from '../../shared/table/store.ts';
import { seededDice } from '../fixtures/dice.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { after, board, never, program, site, until } from '../fixtures/sites/build.ts';

const QUICK = [10, 30_000] as const;

/** Two junctions and a pair of beacons, a hundred times as fast as on a road. */
export const quickTown: BoardTable = board({
  programs: [
    program({
      name: 'quick junction',
      heads: ['High Street RAG', 'Church Lane RAG'],
      dials: { green: QUICK, amber: QUICK, red: QUICK },
      fault: '.a. .a.',
      safe: 'R.. R..',
      conflicts: [[2, 5]],
      rows: [
        after(0, '..G R..'),
        after(1, '.A. R..'),
        after(2, 'R.. RA.'),
        after(0, 'R.. ..G'),
        after(1, 'R.. .A.'),
        after(2, 'RA. R..'),
      ],
    }),
    program({
      name: 'quick beacons',
      heads: ['north B', 'south B'],
      dials: { lit: QUICK, dark: QUICK },
      flash: { on: 0, off: 1 },
      fault: '..',
      safe: 'BB',
      rows: [until(0, never, 'b-')],
    }),
  ],
  sites: [
    site('Market Cross', { program: 0, dials: [70, 30, 20] }),
    site('Bridge End', { program: 0, dials: [40, 30, 20], offset: 50 }),
    site('Chapel Street', { program: 1, dials: [30, 20] }),
  ],
});

const TOWNS = 8;
const LOOK_MS = 700;
const CHANGES = 12;

/** Random tables whose lamps change often at once; between them they use all that the format can say. */
function livelyTables(chip: Chip): BoardTable[] {
  const found: BoardTable[] = [{ ...quickTown, chip }];
  for (let seed = 1; found.length < TOWNS; seed++) {
    const table = randomTable(seededDice(seed), chip);
    let changes = 0;
    const interpreter = new Interpreter(table, { lamps: () => void changes++, row: () => {}, fault: () => {} });
    interpreter.start(0);
    interpreter.run(LOOK_MS);
    if (changes >= CHANGES && table.programs.some(({ conflicts }) => conflicts.length > 0)) found.push(table);
  }
  return found;
}

/** The file that towns.c reads. */
export function townsFile(chip: Chip): Uint8Array {
  const label = { identity: '4A5B6C7D', name: 'Penmarrow' };
  const parts = livelyTables(chip).map((table) => {
    const image = encodeTable(table).bytes;
    if (!image) throw new Error('a table that does not encode');
    const eeprom = buildStore(chip, { label, slots: [{ sequence: 1, image }, null] });
    return Buffer.concat([Uint8Array.of(image.length & 255, image.length >> 8), image, eeprom]);
  });
  return Buffer.concat(parts);
}
