/** What one program holds, with the way out that suits a junction. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import { MAX_STEPS, PROGRAM_LIMITS } from '../../table/format.ts';
import type { Program, Row } from '../../table/model.ts';

const WAYS_OUT = {
  lamps: 'Let opposing heads share the outputs of their phase, or split the junction into two sites.',
  dials: 'Give equal changes equal intergreens, equal stages one gap, or take stages out.',
  inputs: 'Wire buttons that ask for the same phase to one input, side by side.',
  rows: 'Let fewer stages be skipped, or give equal changes equal intergreens.',
  conflicts: 'Let heads share the green of their phase, or split the junction into two sites.',
} as const;

export function checkJunctionLimits(name: string, path: string, program: Program): Finding[] {
  const counts = (['lamps', 'dials', 'inputs', 'rows', 'conflicts'] as const).flatMap((thing) => {
    const [found, most] = [program[thing].length, PROGRAM_LIMITS[thing]];
    if (found <= most) return [];
    const words = thing === 'conflicts' ? 'pairs of conflicting lamps' : thing;
    return [
      error(`too-many-${thing}`, path, {
        what: `${name} has ${found} ${words}; at most ${most} fit.`,
        why: 'A junction is one program of the board, and a program holds no more.',
        cure: WAYS_OUT[thing],
      }),
    ];
  });
  if (counts.length > 0 || longestRun(program.rows) <= MAX_STEPS) return counts;
  return [
    error('too-many-choices', path, {
      what: `${name} can have to ask more than ${MAX_STEPS - 1} questions at one moment.`,
      why: `The board takes at most ${MAX_STEPS} steps in a millisecond and then goes to the fault aspect.`,
      cure: 'Let fewer stages be skipped.',
    }),
  ];
}

/** Most actions that can come one after the other, the interval before them counted. */
function longestRun(rows: readonly Row[]): number {
  const known = new Map<number, number>();
  const after = (at: number): number => {
    const row = rows[at];
    if (row === undefined || 'states' in row) return 0;
    const seen = known.get(at);
    if (seen !== undefined) return seen;
    // A ring of actions would never end.
    known.set(at, MAX_STEPS + 1);
    const next = (at + 1) % rows.length;
    const run = 1 + Math.max(after(next), row.op === 'jump' ? after(row.to) : 0);
    known.set(at, run);
    return run;
  };
  return 1 + Math.max(0, ...rows.map((_, at) => after(at)));
}
