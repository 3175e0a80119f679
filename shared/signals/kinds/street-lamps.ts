/** From street lamps to a program: a pause of chance, a lamp that strikes, and so on until all are lit. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { StreetLamps } from '../../layout/kinds/street-lamps.ts';
import type { Board } from '../../layout/outputs.ts';
import { toMs } from '../../layout/scalars.ts';
import { common, type Practice, type TimeRule, time } from '../../practice/practice.ts';
import type { Interval, LampState } from '../../table/model.ts';
import { checkTime } from '../checks.ts';
import { duplicateIds } from '../names.ts';
import type { Planned } from '../site.ts';
import {
  AT_ONCE,
  checkBetween,
  jump,
  limitsOf,
  NEVER,
  noGroup,
  notUsed,
  plannedLamps,
  rowsOf,
  ruleDial,
  type Step,
} from './lamp-parts.ts';

/** A dusk sensor dithers for a moment; long enough to see that it is meant. */
const SETTLE: TimeRule = time('Lit or dark for at least', common(1000), [0, 60_000]);

export function planStreetLamps(site: StreetLamps, path: string, practice: Practice, board: Board): Planned {
  const rules = practice.lamps;
  const findings: Finding[] = [
    ...duplicateIds(site.lamps, `${path}.lamps`, 'lamp'),
    ...checkTime(site.pause?.shortest, rules.streetStaggerLow, `${path}.pause.shortest`),
    ...checkTime(site.pause?.longest, rules.streetStaggerHigh, `${path}.pause.longest`),
    ...checkTime(site.flicker?.shortest, rules.streetStrikeLow, `${path}.flicker.shortest`),
    ...checkTime(site.flicker?.longest, rules.streetStrikeHigh, `${path}.flicker.longest`),
    ...checkTime(site.settle, SETTLE, `${path}.settle`),
    ...checkUse(site, path, board),
    ...noGroup(site, path),
  ];
  if (hasErrors(findings)) return { plan: null, findings };
  const strikes = site.strikes ?? 2;
  const pauseLow = ruleDial('pause-low', rules.streetStaggerLow, site.pause?.shortest);
  const pauseHigh = ruleDial('pause-high', rules.streetStaggerHigh, site.pause?.longest);
  const flickerLow = ruleDial('flicker-low', rules.streetStrikeLow, site.flicker?.shortest);
  const flickerHigh = ruleDial('flicker-high', rules.streetStrikeHigh, site.flicker?.longest);
  findings.push(...checkBetween(pauseLow, pauseHigh, `${path}.pause`));
  if (strikes > 0) findings.push(...checkBetween(flickerLow, flickerHigh, `${path}.flicker`));
  const input = site.switch ?? (site.when === 'night' ? board.switches?.night : undefined);
  const isSwitched = site.switch !== undefined || site.when === 'night';
  const dials = [
    isSwitched ? ruleDial('settle', SETTLE, site.settle) : AT_ONCE,
    pauseLow,
    pauseHigh,
    ...(strikes > 0 ? [flickerLow, flickerHigh] : []),
  ];
  const steps = stepsOf(site, input !== undefined, isSwitched, strikes);
  const all = site.lamps.map(() => 'lit' as const);
  return {
    plan: {
      program: {
        name: `Street lamps, ${site.lamps.length}`,
        lamps: site.lamps.map((lamp) => lamp.id),
        dials: limitsOf(dials),
        inputs: input === undefined ? [] : [input],
        flash: null,
        fault: all,
        safe: all,
        conflicts: [],
        rows: rowsOf(steps),
      },
      start: 0,
      offset: toMs(site.startDelay ?? 0),
      dials,
      lamps: plannedLamps(site.lamps, path, () => 'warm-white'),
      inputs:
        input === undefined ? [] : [{ id: input, path: `${path}.${site.switch === undefined ? 'when' : 'switch'}` }],
      rows: steps.map(({ label }) => ({ label })),
      cycle: null,
    },
    findings,
  };
}

/**
 * Lamps in the order in which they come on. Scattered: by their numbers with the bits reversed, so that each
 * falls into the widest gap between those that are lit already.
 */
export function switchOnOrder(count: number, order: StreetLamps['order']): number[] {
  const lamps = [...Array(count).keys()];
  if (order === 'in-turn') return lamps;
  const bits = Math.ceil(Math.log2(Math.max(2, count)));
  const reversed = (lamp: number): number =>
    Array.from({ length: bits }, (_, bit) => ((lamp >> bit) & 1) << (bits - 1 - bit)).reduce((sum, it) => sum + it, 0);
  return lamps.sort((one, other) => reversed(one) - reversed(other));
}

function stepsOf(site: StreetLamps, hasInput: boolean, isSwitched: boolean, strikes: number): Step[] {
  const [least, pauseLow, pauseHigh, flickerLow, flickerHigh] = [0, 1, 2, 3, 4];
  const order = switchOnOrder(site.lamps.length, site.order);
  /** The first `count` of the order are lit. */
  const states = (count: number): LampState[] =>
    site.lamps.map((_, lamp) => (order.indexOf(lamp) < count ? ('lit' as const) : ('dark' as const)));
  const pause = (lit: number): Interval => ({ op: 'random', low: pauseLow, high: pauseHigh, states: states(lit) });
  const flicker = (lit: number): Interval => ({
    op: 'random',
    low: flickerLow,
    high: flickerHigh,
    states: states(lit),
  });
  const isActive = { kind: 'active', inputs: [0] } as const;
  const isInactive = { kind: 'inactive', inputs: [0] } as const;
  const last = order.length;
  if (isSwitched && !hasInput) {
    return [{ label: 'All dark', row: { op: 'until', min: least, when: NEVER, states: states(0) } }];
  }
  const lamps = order.flatMap((lamp, before): Step[] => {
    const name = site.lamps[lamp]?.name ?? site.lamps[lamp]?.id ?? '';
    const strike = Array.from({ length: strikes }, (): Step[] => [
      { label: `${name} strikes`, row: flicker(before + 1) },
      { label: `${name} goes out again`, row: flicker(before) },
    ]).flat();
    if (before + 1 === last) return strike;
    const off = jump(isInactive, 'dark', 'All out when switched off');
    return [...strike, { label: `${name} is lit`, row: pause(before + 1) }, ...(hasInput ? [off] : [])];
  });
  const dark: Step = hasInput
    ? { at: 'dark', label: 'All dark', row: { op: 'until', min: least, when: isActive, states: states(0) } }
    : { at: 'dark', label: 'All dark', row: pause(0) };
  const when = hasInput ? isInactive : NEVER;
  return [dark, ...lamps, { label: 'All lit', row: { op: 'until', min: least, when, states: states(last) } }];
}

function checkUse(site: StreetLamps, path: string, board: Board): Finding[] {
  const findings: Finding[] = [];
  if (site.switch !== undefined && site.when !== undefined) {
    findings.push(notUsed(`${path}.when`, 'when', 'A switch of its own decides'));
  }
  if (site.strikes === 0 && site.flicker !== undefined) {
    findings.push(notUsed(`${path}.flicker`, 'flicker', 'Lamps that do not strike come on at once'));
  }
  const isByNight = site.when === 'night' && site.switch === undefined;
  if (site.switch === undefined && !isByNight && site.settle !== undefined) {
    findings.push(notUsed(`${path}.settle`, 'settle', 'Nothing switches them'));
  }
  if (isByNight && board.switches?.night === undefined && site.atNight !== 'safe') {
    findings.push(
      warning('no-night-switch', `${path}.when`, {
        what: `${site.name} waits for the night switch, and ${board.name} has none.`,
        why: 'It would stay dark.',
        cure: 'Name an input as the night switch of the board, or write "atNight": "safe" to have them all lit at once when the panel says night.',
      }),
    );
  }
  return findings;
}
