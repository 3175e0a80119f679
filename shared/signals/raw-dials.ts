/** Dials of a site given row by row: their limits follow from what they time. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { ProgramDial, ProgramSite } from '../layout/program.ts';
import { toMs } from '../layout/scalars.ts';
import type { Program, Row } from '../table/model.ts';
import type { PlannedDial } from './dials.ts';
import { seconds } from './names.ts';
import { holdable } from './site.ts';

/** Bounds of the image format for a dial in this use, ms (firmware/PROTOCOL.md chapter 2). */
export interface Bounds {
  readonly least: number;
  readonly greatest: number;
}

const LONGEST = 32767000;

export function planRawDials(
  site: ProgramSite,
  path: string,
  rows: readonly Row[],
  flash: Program['flash'],
): { dials: PlannedDial[]; findings: Finding[] } {
  const planned = site.dials.map((dial, index) =>
    planDial(dial, `${path}.dials[${index}]`, dialBounds(index, rows, flash)),
  );
  return { dials: planned.map((it) => it.dial), findings: planned.flatMap((it) => it.findings) };
}

export function dialBounds(dial: number, rows: readonly Row[], flash: Program['flash']): Bounds {
  const flashes = flash?.on === dial || flash?.off === dial;
  const spans = rows.some(
    (row) => (row.op === 'after' && row.dial === dial) || (row.op === 'random' && row.low === dial),
  );
  const gap = rows.some((row) => row.op === 'extend' && row.gap === dial);
  return { least: flashes || spans ? 10 : 0, greatest: Math.min(flashes ? 30000 : LONGEST, gap ? 60000 : LONGEST) };
}

function planDial(dial: ProgramDial, path: string, within: Bounds): { dial: PlannedDial; findings: Finding[] } {
  const value = toMs(dial.value);
  const least = dial.least === undefined ? Math.max(within.least, holdable(value / 10)) : toMs(dial.least);
  const greatest = dial.greatest === undefined ? Math.min(within.greatest, holdable(value * 10)) : toMs(dial.greatest);
  const planned = { id: dial.id, name: dial.name ?? dial.id, min: least, max: greatest, value };
  return { dial: planned, findings: check(dial, planned, path, within) };
}

/** At most one finding a dial. */
function check(dial: ProgramDial, planned: PlannedDial, path: string, within: Bounds): Finding[] {
  const { min, max, value } = planned;
  if (value < within.least) {
    return [
      error('zero-time', `${path}.value`, {
        what: `The dial "${dial.id}" is zero.`,
        why: 'It times an interval or a flash, and these need a length.',
        cure: 'Write a time in seconds, such as 3 or 0.75.',
      }),
    ];
  }
  const tooWide = min < within.least || max > within.greatest;
  if (min <= value && value <= max && !tooWide) return [];
  const low = Math.max(min, within.least);
  const high = Math.min(max, within.greatest);
  return [
    error('time-outside-limits', tooWide && value >= low && value <= high ? path : `${path}.value`, {
      what: `The dial "${dial.id}" is ${seconds(value)} with limits of ${seconds(min)} and ${seconds(max)}.`,
      why: `The value lies between the limits, and for what this dial times they lie between ${seconds(within.least)} and ${seconds(within.greatest)}.`,
      cure: 'Change the value or the limits.',
    }),
  ];
}
