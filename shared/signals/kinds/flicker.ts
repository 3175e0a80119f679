/** From a fire or a welder to a program: moments of chance in an order of chance. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import type { Flicker } from '../../layout/kinds/flicker.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Practice } from '../../practice/practice.ts';
import type { Condition, LampState } from '../../table/model.ts';
import { checkTime } from '../checks.ts';
import { duplicateIds } from '../names.ts';
import type { Planned } from '../site.ts';
import {
  ALWAYS,
  AT_ONCE,
  checkBetween,
  jump,
  limitsOf,
  noGroup,
  notUsed,
  plannedLamps,
  rowsOf,
  ruleDial,
  type Step,
} from './lamp-parts.ts';

/** How often in 256 a fire falls back to its lowest flame, and a welder goes on: what looks right, no source. */
const FALLS_BACK: Condition = { kind: 'chance', outOf256: 96 };
const GOES_ON: Condition = { kind: 'chance', outOf256: 224 };

const FIRE = ['red', 'amber', 'yellow'];

export function planFlicker(site: Flicker, path: string, practice: Practice): Planned {
  const rules = practice.lamps;
  const isFire = site.effect === 'fire';
  const [lowRule, highRule] = isFire ? [rules.fireLow, rules.fireHigh] : [rules.weldingLow, rules.weldingHigh];
  const low = ruleDial('moments-low', lowRule, site.moments?.shortest);
  const high = ruleDial('moments-high', highRule, site.moments?.longest);
  const restLow = ruleDial('rest-low', rules.weldingRestLow, site.rest?.shortest);
  const restHigh = ruleDial('rest-high', rules.weldingRestHigh, site.rest?.longest);
  const findings: Finding[] = [
    ...duplicateIds(site.lamps, `${path}.lamps`, 'lamp'),
    ...checkTime(site.moments?.shortest, lowRule, `${path}.moments.shortest`),
    ...checkTime(site.moments?.longest, highRule, `${path}.moments.longest`),
    ...checkBetween(low, high, `${path}.moments`),
    ...(isFire ? noRest(site, path) : checkBetween(restLow, restHigh, `${path}.rest`)),
    ...(isFire ? [] : checkTime(site.rest?.shortest, rules.weldingRestLow, `${path}.rest.shortest`)),
    ...(isFire ? [] : checkTime(site.rest?.longest, rules.weldingRestHigh, `${path}.rest.longest`)),
    ...noGroup(site, path),
  ];
  if (hasErrors(findings)) return { plan: null, findings };
  const isSwitched = site.switch !== undefined;
  const dials = [low, high, ...(isFire ? [] : [restLow, restHigh]), ...(isSwitched ? [AT_ONCE] : [])];
  const burning = isFire ? fire(site, isSwitched) : welding(site, isSwitched);
  const steps = isSwitched ? [...switchRows(site, dials.length - 1), ...burning] : burning;
  const dark = site.lamps.map(() => 'dark' as const);
  return {
    plan: {
      program: {
        name: `${isFire ? 'Fire' : 'Welding'}, ${site.lamps.length} lamps`,
        lamps: site.lamps.map((lamp) => lamp.id),
        dials: limitsOf(dials),
        inputs: site.switch === undefined ? [] : [site.switch],
        flash: null,
        fault: dark,
        safe: dark,
        conflicts: [],
        rows: rowsOf(steps),
      },
      start: 0,
      offset: toMs(site.startDelay ?? 0),
      dials,
      lamps: plannedLamps(site.lamps, path, (index) => (isFire ? (FIRE[index % 3] ?? 'red') : 'white')),
      inputs: site.switch === undefined ? [] : [{ id: site.switch, path: `${path}.switch` }],
      rows: steps.map(({ label }) => ({ label })),
      cycle: null,
    },
    findings,
  };
}

/** Each turn of the fire, and each burst, looks at the switch first. */
function switchRows(site: Flicker, atOnce: number): Step[] {
  const states = site.lamps.map(() => 'dark' as const);
  const isOn: Condition = { kind: 'active', inputs: [0] };
  return [
    { at: 'off', label: 'Switched off', row: { op: 'until', min: atOnce, when: isOn, states } },
    { ...jump({ kind: 'inactive', inputs: [0] }, 'off', 'Dark when switched off'), at: 'turn' },
  ];
}

function moment(site: Flicker, label: string, isLit: (lamp: number) => boolean): Step {
  const states = site.lamps.map((_, lamp): LampState => (isLit(lamp) ? 'lit' : 'dark'));
  return { label, row: { op: 'random', low: 0, high: 1, states } };
}

/** Lamps in threes: one always glows low, one flares, one leaps. */
function fire(site: Flicker, isSwitched: boolean): Step[] {
  const embers = moment(site, 'Embers', (lamp) => lamp % 3 === 0);
  return [
    isSwitched ? embers : { ...embers, at: 'turn' },
    moment(site, 'Flame', (lamp) => lamp % 3 !== 2),
    jump(FALLS_BACK, 'turn', 'Falls back'),
    moment(site, 'Blaze', () => true),
    moment(site, 'Flare', (lamp) => lamp % 3 === 1),
    ...(isSwitched ? [jump(ALWAYS, 'turn', 'Look at the switch')] : []),
  ];
}

function welding(site: Flicker, isSwitched: boolean): Step[] {
  const arc = moment(site, 'Arc', () => true);
  const states = site.lamps.map(() => 'dark' as const);
  return [
    isSwitched ? arc : { ...arc, at: 'turn' },
    moment(site, 'Out', () => false),
    jump(GOES_ON, 'turn', 'Goes on'),
    { label: 'Rest', row: { op: 'random', low: 2, high: 3, states } },
    ...(isSwitched ? [jump(ALWAYS, 'turn', 'Look at the switch')] : []),
  ];
}

function noRest(site: Flicker, path: string): Finding[] {
  return site.rest === undefined ? [] : [notUsed(`${path}.rest`, 'rest', 'A fire does not rest')];
}
