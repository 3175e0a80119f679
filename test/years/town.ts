/**
 * A town for a month: 16 sites that end their intervals in all ways, as much as each board holds. The large board
 * has every kind of program; the small one's image is full with four.
 */
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable, Program, SiteBinding } from '../../shared/table/model.ts';
import { after, board, clear, demand, group, input, onChain, program, site, until } from '../fixtures/sites/build.ts';
import { commonCycle } from '../fixtures/sites/common-cycle.ts';
import { levelCrossing } from '../fixtures/sites/level-crossing.ts';
import { streetLamps } from '../fixtures/sites/street-lamps.ts';
import { twoStage } from '../fixtures/sites/two-stage.ts';
import { vehicleActuated } from '../fixtures/sites/vehicle-actuated.ts';
import { zebra } from '../fixtures/sites/zebra.ts';

/** Sites 0 and 1, a junction and a pair of beacons, are not nudged, so that paper alone tells their edges. */
export const PAPER_SITES = 2;
/** The last input: nobody asks there but once. */
export const BRANCH = (table: BoardTable) => table.inputs.length - 1;

/** A gate that a train asks for once in a month: its row outlasts half of the counter. */
const branchGate: Program = program({
  name: 'gate of a branch line',
  heads: ['lane RG'],
  inputs: ['train'],
  dials: { least: [10, 1000], open: [1000, 60_000] },
  fault: 'R.',
  safe: 'R.',
  conflicts: [[0, 1]],
  rows: [until(0, demand(0), 'R.'), after(1, '.G'), clear(0)],
});

/** A board's first (or that) program, and a site of it. */
const kind = (from: BoardTable, at = 0) => ({ program: from.programs[at], dials: from.sites[at]?.dials ?? [] });
const KINDS = {
  junction: kind(twoStage),
  beacons: kind(zebra, 1),
  actuated: kind(vehicleActuated),
  crossing: kind(levelCrossing),
  coordinated: kind(commonCycle),
  lamps: kind(streetLamps),
  gate: { program: branchGate, dials: [500, 20_000] },
} as const;
type Kind = keyof typeof KINDS;

const INPUTS = [
  input('detector 1', { debounce: 0 }),
  input('detector 2', { debounce: 1 }),
  input('train', { debounce: 50 }),
  input('dusk', { debounce: 200 }),
  input('branch train'),
];
const BOUND: Readonly<Partial<Record<Kind, readonly number[]>>> = {
  actuated: [0, 1],
  crossing: [2],
  lamps: [3],
  gate: [4],
};

function made(kinds: readonly Kind[], chip: Chip): BoardTable {
  const used = [...new Set(kinds)];
  const bound = INPUTS.map((_, at) => at).filter((at) => used.some((name) => BOUND[name]?.includes(at)));
  const sites = kinds.map(
    (name, at): SiteBinding =>
      site(`${name} ${at + 1}`, {
        program: used.indexOf(name),
        dials: KINDS[name].dials,
        // Some begin later, so that not all change in one tick.
        offset: at % 3 === 2 ? 370 * at : 0,
        group: name === 'coordinated' ? 0 : null,
        inputs: (BOUND[name] ?? []).map((at) => bound.indexOf(at)),
      }),
  );
  const programs = used.map((name) => KINDS[name].program).filter((one): one is Program => one !== undefined);
  const inputs = INPUTS.filter((_, at) => bound.includes(at));
  const groups = used.includes('coordinated') ? [group('Esplanade', 60_000)] : [];
  return { ...onChain(board({ programs, inputs, groups, sites })), chip };
}

const times = (count: number, name: Kind) => Array.from({ length: count }, () => name);

export function town(chip: Chip): BoardTable {
  const paper: readonly Kind[] = ['junction', 'beacons'];
  if (chip === 'atmega328p')
    return made([...paper, ...times(2, 'junction'), 'actuated', ...times(10, 'beacons'), 'gate'], chip);
  const rest = [...times(3, 'junction'), ...times(2, 'actuated'), ...times(3, 'coordinated')];
  return made([...paper, ...rest, 'crossing', ...times(2, 'lamps'), ...times(2, 'beacons'), 'gate'], chip);
}
