/** The confusion tables as they stand in the README. */
import { hangingBench, penmarrow } from './benches.ts';
import { byFault, byTruth, COLUMNS, doubles, type EngineMaker, singles, tally } from './count.ts';

export const BEGIN = '<!-- confusion:begin -->';
export const END = '<!-- confusion:end -->';

/** Of the random double faults. */
export const DOUBLES = 1000;
export const SEED = 1965;

const HEADS: Readonly<Record<string, string>> = {
  lamp: 'a lamp',
  notShorted: 'not shorted',
  conducts: 'conducts',
  open: 'open',
  short: 'short',
  noResistor: 'no resistor',
  cantTell: "can't tell",
};

function table(first: string, rows: ReadonlyMap<string, readonly number[]>): string {
  const heads = COLUMNS.map((kind) => HEADS[kind] ?? kind).join(' | ');
  const columns = first.split('|').length;
  const rule = [...Array(columns).fill('---'), ...COLUMNS.map(() => '---:')].join(' | ');
  const lines = [...rows].map(([row, counts]) => `| ${row} | ${counts.map((count) => count || '·').join(' | ')} |`);
  return [`| ${first} | ${heads} |`, `| ${rule} |`, ...lines].join('\n');
}

/** Digital pins first. */
function sorted(rows: Map<string, number[]>): Map<string, number[]> {
  return new Map([...rows].sort(([a], [b]) => Number(a.endsWith('analogue')) - Number(b.endsWith('analogue'))));
}

export function exampleTable(make: EngineMaker): string {
  return table('fault | pin', sorted(tally(singles(make, penmarrow()), byFault)));
}

export function anodeTable(make: EngineMaker): string {
  return table('fault | pin', sorted(tally(singles(make, hangingBench()), byFault)));
}

export function doublesTable(make: EngineMaker, count = DOUBLES): string {
  return table('what is there', tally(doubles(make, count, SEED), byTruth));
}

/** What stands between the marks. */
/** `count`: of the double faults that are really tried. */
export function confusion(make: EngineMaker, count = DOUBLES): string {
  return [
    BEGIN,
    'Every single fault on every output of the example, with the least and the greatest pull-up and with both answers',
    'where an input promises none:',
    '',
    exampleTable(make),
    '',
    'The same for four lamps with a common anode (three on analogue pins, one of them a pair):',
    '',
    anodeTable(make),
    '',
    `All outputs of ${DOUBLES.toLocaleString('en-GB')} random boards with two random faults each, every part at an end of its data sheet`,
    '(pairs, chains of LEDs, filaments, transistors and shift registers are among the lamps):',
    '',
    doublesTable(make, count),
    '',
    'Where lamps lit by high and by low share a board, wires of the two that touch look open or not shorted: there neither',
    'answer lets the output stay lit. A short seen at a lamp is a cold filament that was exchanged into its place.',
    END,
  ].join('\n');
}

/** `text` with what stands between the marks put anew; null without marks. */
export function renewed(text: string, made: string): string | null {
  const from = text.indexOf(BEGIN);
  const to = text.indexOf(END);
  if (from < 0 || to < from) return null;
  return text.slice(0, from) + made + text.slice(to + END.length);
}
