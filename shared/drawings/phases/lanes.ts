/** What each phase, head or lamp shows along the cycle. */
import type { LampState } from '../../table/model.ts';
import type { Cycle } from './cycle.ts';
import type { ChartSite } from './source.ts';

/** stop: red only; go: green only; ready: red with amber; change: amber; other: any other light. */
export type Weight = 'stop' | 'go' | 'ready' | 'change' | 'other' | 'dark';

export interface Show {
  readonly weight: Weight;
  /** Colours that are not dark, from the top of the head. */
  readonly colours: readonly string[];
  readonly flashing: 'no' | 'flash' | 'alternate' | 'both';
}

/** First and last of the cycle's rows, as places in `Cycle.rows`. */
export interface Bar extends Show {
  readonly first: number;
  readonly last: number;
}

export interface Lane {
  /** Id of the phase, at junctions; else null. */
  readonly phase: string | null;
  readonly name: string;
  /** Lamps of the program, of one phase or head. */
  readonly lamps: readonly number[];
  readonly bars: readonly Bar[];
}

export function lanesOf(chart: ChartSite, cycle: Cycle): Lane[] {
  return laneLamps(chart).map((lane) => ({
    ...lane,
    bars: lane.lamps.length === 0 ? [] : merge(cycle.rows.map((row, at) => barOf(chart, lane.lamps, row.states, at))),
  }));
}

type LaneLamps = Omit<Lane, 'bars'>;

function laneLamps(chart: ChartSite): LaneLamps[] {
  if (chart.site.kind === 'junction') return phaseLamps(chart);
  // All lamps of a railway signal make one aspect together.
  if (chart.site.kind === 'colour-light') {
    return [{ phase: null, name: chart.name, lamps: chart.lamps.map((_, lamp) => lamp) }];
  }
  const lanes = new Map<string, number[]>();
  chart.lamps.forEach(({ label }, lamp) => {
    lanes.set(label, [...(lanes.get(label) ?? []), lamp]);
  });
  return [...lanes].map(([name, lamps]) => ({ phase: null, name, lamps }));
}

/** The compiler puts the lamps phase by phase, named by the phase or by one of its heads. */
function phaseLamps(chart: ChartSite): LaneLamps[] {
  if (chart.site.kind !== 'junction') return [];
  const { phases, heads = [] } = chart.site;
  const labels = phases.map((phase) => [
    phase.name,
    ...heads.filter((head) => head.phase === phase.id).map((head) => head.name),
  ]);
  let at = 0;
  const owners = chart.lamps.map(({ label }) => {
    const next = labels.findIndex((names, index) => index >= at && names.includes(label));
    if (next >= 0) at = next;
    return next;
  });
  return phases.map((phase, index) => ({
    phase: phase.id,
    name: phase.name,
    lamps: owners.flatMap((owner, lamp) => (owner === index ? [lamp] : [])),
  }));
}

function barOf(chart: ChartSite, lamps: readonly number[], states: readonly LampState[], at: number): Bar {
  return {
    ...showOf(lamps.map((lamp) => [chart.lamps[lamp]?.colour ?? '', states[lamp] ?? 'dark'])),
    first: at,
    last: at,
  };
}

/** Heads that show the same beside each other count once; two lamps of one head with one colour count twice. */
function showOf(lamps: readonly (readonly [string, LampState])[]): Show {
  const lit = lamps.filter(([, state]) => state !== 'dark');
  const road = lit.every(([colour]) => ['red', 'amber', 'green'].includes(colour));
  const colours = road ? [...new Set(lit.map(([colour]) => colour))] : lit.map(([colour]) => colour);
  const steady = lit.some(([, state]) => state === 'lit');
  const flash = lit.some(([, state]) => state === 'flash');
  const alternate = lit.some(([, state]) => state === 'alternate');
  const flashing = flash && alternate ? 'both' : flash ? 'flash' : alternate ? 'alternate' : 'no';
  return { weight: weightOf(colours), colours, flashing: steady && flashing === 'no' ? 'no' : flashing };
}

function weightOf(colours: readonly string[]): Weight {
  const which = [...new Set(colours)].sort().join(' ');
  const weights: Readonly<Record<string, Weight>> = {
    '': 'dark',
    red: 'stop',
    green: 'go',
    amber: 'change',
    yellow: 'change',
    'amber red': 'ready',
  };
  return weights[which] ?? 'other';
}

function merge(bars: readonly Bar[]): Bar[] {
  const merged: Bar[] = [];
  for (const next of bars) {
    const last = merged.at(-1);
    if (last && sameShow(last, next)) merged[merged.length - 1] = { ...last, last: next.last };
    else merged.push(next);
  }
  return merged;
}

function sameShow(one: Show, other: Show): boolean {
  return (
    one.weight === other.weight && one.flashing === other.flashing && one.colours.join(' ') === other.colours.join(' ')
  );
}

const LETTERS: Readonly<Record<string, string>> = { 'warm-white': 'W' };

/** `R`, `RA`, `G`; small letters flash; `–` for dark. */
export function lettersOf(show: Show): string {
  const letters = show.colours.map((colour) => LETTERS[colour] ?? colour.charAt(0).toUpperCase()).join('');
  if (letters === '') return '–';
  return show.flashing === 'no' ? letters : letters.toLowerCase();
}

/** `red with amber`, `flashing amber`, `dark`. */
export function wordsOf(show: Show): string {
  if (show.colours.length === 0) return 'dark';
  const how = { no: '', flash: 'flashing ', alternate: 'flashing ', both: 'alternately flashing ' }[show.flashing];
  const counted = [...new Set(show.colours)].map((colour) => {
    const times = show.colours.filter((it) => it === colour).length;
    return times === 1 ? colour.replace('-', ' ') : `${times} × ${colour.replace('-', ' ')}`;
  });
  return `${how}${counted.join(' with ')}`;
}
