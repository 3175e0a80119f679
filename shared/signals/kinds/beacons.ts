/** From the beacons of a vehicle to a program: the flasher of the board, or a table of double flashes. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { Beacons } from '../../layout/kinds/beacons.ts';
import { toMs } from '../../layout/scalars.ts';
import type { LampPractice, Practice, TimeRule } from '../../practice/practice.ts';
import type { LampState, Program } from '../../table/model.ts';
import { checkTime } from '../checks.ts';
import type { PlannedDial } from '../dials.ts';
import { duplicateIds } from '../names.ts';
import type { Planned } from '../site.ts';
import {
  AT_ONCE,
  checkRate,
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

/** How the beacons flash, with the lit time of one flash and the time until the same lamp flashes again, ms. */
interface Rhythm {
  readonly dials: readonly PlannedDial[];
  readonly flash: Program['flash'];
  readonly steps: readonly Step[];
  readonly lit: number;
  readonly period: number;
}

const WHEN_ON = { kind: 'active', inputs: [0] } as const;
const WHEN_OFF = { kind: 'inactive', inputs: [0] } as const;

export function planBeacons(site: Beacons, path: string, practice: Practice): Planned {
  const rules = practice.lamps;
  const isDouble = site.flash === 'double' || site.flash === 'double-together';
  const rhythm = isDouble ? doubleFlash(site, rules) : evenFlash(site, rules);
  const findings: Finding[] = [
    ...duplicateIds(site.lamps, `${path}.lamps`, 'lamp'),
    ...checkTime(site.on, isDouble ? rules.doubleFlash : rules.emergencyOn, `${path}.on`),
    ...(isDouble ? [] : checkTime(site.off, rules.emergencyOff, `${path}.off`)),
    ...(isDouble ? checkTime(site.pause, pauseRule(site, rules), `${path}.pause`) : []),
    ...checkRate(rhythm.lit, rhythm.period, rules.emergencyRate, path),
    ...checkUse(site, path, isDouble),
    ...noGroup(site, path),
  ];
  if (hasErrors(findings)) return { plan: null, findings };
  const dark = site.lamps.map(() => 'dark' as const);
  return {
    plan: {
      program: {
        name: `Beacons, ${site.lamps.length} lamps, ${site.flash ?? 'alternate'}`,
        lamps: site.lamps.map((lamp) => lamp.id),
        dials: limitsOf(rhythm.dials),
        inputs: site.switch === undefined ? [] : [site.switch],
        flash: rhythm.flash,
        fault: dark,
        safe: dark,
        conflicts: [],
        rows: rowsOf(rhythm.steps),
      },
      start: 0,
      offset: toMs(site.startDelay ?? 0),
      dials: rhythm.dials,
      lamps: plannedLamps(site.lamps, path, () => 'blue'),
      inputs: site.switch === undefined ? [] : [{ id: site.switch, path: `${path}.switch` }],
      rows: rhythm.steps.map(({ label }) => ({ label })),
      cycle: null,
    },
    findings,
  };
}

function evenFlash(site: Beacons, rules: LampPractice): Rhythm {
  const on = ruleDial('flash-on', rules.emergencyOn, site.on);
  const off = ruleDial('flash-off', rules.emergencyOff, site.off);
  const inTurn = site.flash !== 'together';
  const shown = site.lamps.map((_, index) => (inTurn && index % 2 === 1 ? ('alternate' as const) : ('flash' as const)));
  const label = inTurn ? 'Beacons flash in turn' : 'Beacons flash together';
  const isSwitched = site.switch !== undefined;
  const when = isSwitched ? WHEN_OFF : NEVER;
  const flashing: Step = { label, row: { op: 'until', min: 2, when, states: shown } };
  return {
    dials: [on, off, AT_ONCE],
    flash: { on: 0, off: 1 },
    steps: isSwitched ? [switchedOff(site, 2), flashing] : [flashing],
    lit: on.value,
    period: on.value + off.value,
  };
}

/** Dark until the switch is on; `min` is the number of the dial that is at once. */
function switchedOff(site: Beacons, min: number): Step {
  const states = site.lamps.map(() => 'dark' as const);
  return { at: 'off', label: 'Switched off', row: { op: 'until', min, when: WHEN_ON, states } };
}

/** Both sides in turn: while one pauses the other flashes. All at once: they pause for as long as that would take. */
function pauseRule(site: Beacons, rules: LampPractice): TimeRule {
  const pause = rules.doublePause;
  if (isInTurn(site)) return pause;
  const flash = site.on === undefined ? rules.doubleFlash.usual.value : toMs(site.on);
  return { ...pause, usual: { ...pause.usual, value: 2 * pause.usual.value + 3 * flash } };
}

function isInTurn(site: Beacons): boolean {
  return site.flash === 'double' && site.lamps.length > 1;
}

function doubleFlash(site: Beacons, rules: LampPractice): Rhythm {
  const flash = ruleDial('flash', rules.doubleFlash, site.on);
  const pause = ruleDial('pause', pauseRule(site, rules), site.pause);
  const sides = isInTurn(site) ? [0, 1] : [null];
  const isSwitched = site.switch !== undefined;
  const dark = site.lamps.map((): LampState => 'dark');
  const steps = sides.flatMap((side): Step[] => {
    const lit = site.lamps.map((_, index): LampState => (side === null || index % 2 === side ? 'lit' : 'dark'));
    const who = side === null ? 'All' : side === 0 ? 'First side' : 'Second side';
    const row = (label: string, dial: number, states: readonly LampState[]): Step => ({
      label: `${who}: ${label}`,
      row: { op: 'after', dial, states },
    });
    return [
      row('first flash', 0, lit),
      row('between', 0, dark),
      row('second flash', 0, lit),
      row('pause', 1, dark),
      ...(isSwitched ? [jump(WHEN_OFF, 'off', 'Dark when switched off')] : []),
    ];
  });
  const again = jump(WHEN_ON, 'flash', 'Once more');
  const [first, ...others] = steps;
  const flashes = first === undefined ? [] : [{ ...first, at: 'flash' }, ...others.slice(0, -1), again];
  return {
    dials: isSwitched ? [flash, pause, AT_ONCE] : [flash, pause],
    flash: null,
    // The last look at the switch goes back to the first flash; else the first row, dark, comes by itself.
    steps: isSwitched ? [switchedOff(site, 2), ...flashes] : steps,
    lit: 2 * flash.value,
    period: sides.length * (3 * flash.value + pause.value),
  };
}

function checkUse(site: Beacons, path: string, isDouble: boolean): Finding[] {
  const findings: Finding[] = [];
  if (isDouble && site.off !== undefined) {
    findings.push(notUsed(`${path}.off`, 'off', 'Between two flashes it is dark for as long as a flash is lit'));
  }
  if (!isDouble && site.pause !== undefined) {
    findings.push(notUsed(`${path}.pause`, 'pause', 'Only a double flash pauses'));
  }
  const isOne = site.lamps.length === 1;
  if (isOne && (site.flash === 'alternate' || site.flash === 'double')) {
    findings.push(
      warning('missing-lamp', `${path}.lamps`, {
        what: `${site.name} has one lamp, and it should flash in turn with another.`,
        why: 'It flashes by itself.',
        cure: 'Add the other lamp, or let it flash "together".',
      }),
    );
  }
  return findings;
}
