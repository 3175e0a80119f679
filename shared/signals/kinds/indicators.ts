/** From direction indicators to a program. One flasher drives both sides, so changing over keeps the rhythm. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { error, warning } from '../../findings/make.ts';
import type { Indicators } from '../../layout/kinds/indicators.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Practice } from '../../practice/practice.ts';
import type { Condition, LampState } from '../../table/model.ts';
import { checkTime } from '../checks.ts';
import { duplicateIds } from '../names.ts';
import type { Planned } from '../site.ts';
import {
  ALWAYS,
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

type Shows = 'left' | 'right' | 'hazard';
const WORDS: Readonly<Record<Shows, string>> = { left: 'Left', right: 'Right', hazard: 'Both sides' };

export function planIndicators(site: Indicators, path: string, practice: Practice): Planned {
  const rules = practice.lamps;
  const on = ruleDial('flash-on', rules.indicatorOn, site.on);
  const off = ruleDial('flash-off', rules.indicatorOff, site.off);
  const switches = switchesOf(site);
  const findings: Finding[] = [
    ...duplicateIds(site.lamps, `${path}.lamps`, 'lamp'),
    ...checkTime(site.on, rules.indicatorOn, `${path}.on`),
    ...checkTime(site.off, rules.indicatorOff, `${path}.off`),
    ...checkRate(on.value, on.value + off.value, rules.indicatorRate, path),
    ...checkSides(site, path, switches),
    ...noGroup(site, path),
  ];
  if (hasErrors(findings)) return { plan: null, findings };
  const dials = [on, off, AT_ONCE];
  const steps = switches.length === 0 ? unswitched(site) : switched(site, switches);
  const ids = [...new Set(switches.map(({ id }) => id))];
  const dark = site.lamps.map(() => 'dark' as const);
  return {
    plan: {
      program: {
        name: `Indicators, ${site.lamps.length} lamps`,
        lamps: site.lamps.map((lamp) => lamp.id),
        dials: limitsOf(dials),
        inputs: ids,
        flash: { on: 0, off: 1 },
        fault: dark,
        safe: dark,
        conflicts: [],
        rows: rowsOf(steps),
      },
      start: 0,
      offset: toMs(site.startDelay ?? 0),
      dials,
      lamps: plannedLamps(site.lamps, path, () => 'amber'),
      inputs: ids.map((id) => ({ id, path: `${path}.switches.${switches.find((it) => it.id === id)?.shows}` })),
      rows: steps.map(({ label }) => ({ label })),
      cycle: null,
    },
    findings,
  };
}

interface Switch {
  readonly shows: Shows;
  readonly id: string;
}

function switchesOf(site: Indicators): Switch[] {
  return (['left', 'right', 'hazard'] as const).flatMap((shows) => {
    const id = site.switches?.[shows];
    return id === undefined ? [] : [{ shows, id }];
  });
}

function states(site: Indicators, shows: Shows | null): LampState[] {
  return site.lamps.map(({ side }) => (shows === 'hazard' || shows === side ? ('flash' as const) : ('dark' as const)));
}

function unswitched(site: Indicators): Step[] {
  const shows = site.shows ?? 'hazard';
  return [{ label: `${WORDS[shows]}`, row: { op: 'until', min: 2, when: NEVER, states: states(site, shows) } }];
}

/** Hazard before all else; left and right together show both, as one flasher with two switches would. */
function switched(site: Indicators, switches: readonly Switch[]): Step[] {
  const ids = [...new Set(switches.map(({ id }) => id))];
  const input = (shows: Shows): number => ids.indexOf(switches.find((it) => it.shows === shows)?.id ?? '');
  const any: Condition = { kind: 'changed', inputs: ids.map((_, index) => index) };
  const has = (shows: Shows): boolean => input(shows) >= 0;
  const choices: Step[] = [];
  if (has('hazard')) choices.push(jump({ kind: 'active', inputs: [input('hazard')] }, 'hazard', 'Both sides'));
  if (has('left') && has('right')) {
    choices.push(jump({ kind: 'allActive', inputs: [input('left'), input('right')] }, 'hazard', 'Both sides'));
  }
  for (const shows of ['left', 'right'] as const) {
    if (has(shows)) choices.push(jump({ kind: 'active', inputs: [input(shows)] }, shows, WORDS[shows]));
  }
  const targets = new Set(choices.flatMap(({ row }) => (row.op === 'jump' ? [row.to] : [])));
  const shown: Step[] = [
    { label: 'Dark', row: { op: 'until', min: 2, when: any, states: states(site, null) } },
    ...(['hazard', 'left', 'right'] as const).flatMap((shows): Step[] =>
      targets.has(shows)
        ? [{ at: shows, label: WORDS[shows], row: { op: 'until', min: 2, when: any, states: states(site, shows) } }]
        : [],
    ),
  ];
  const again = jump(ALWAYS, 'choose', 'Look again');
  // After the last row the first one comes by itself.
  const rows = shown.flatMap((step, index) => (index + 1 < shown.length ? [step, again] : [step]));
  const [first, ...others] = choices;
  return [...(first === undefined ? [] : [{ ...first, at: 'choose' }]), ...others, ...rows];
}

function checkSides(site: Indicators, path: string, switches: readonly Switch[]): Finding[] {
  const findings: Finding[] = [];
  if (switches.length > 0 && site.shows !== undefined) {
    findings.push(notUsed(`${path}.shows`, 'shows', 'Switches decide'));
  }
  if (site.switches !== undefined && switches.length === 0) {
    findings.push(notUsed(`${path}.switches`, 'switches', 'It names no input'));
  }
  const shown = switches.length === 0 ? [site.shows ?? 'hazard'] : switches.map((it) => it.shows);
  for (const side of ['left', 'right'] as const) {
    const first = site.lamps.findIndex((lamp) => lamp.side === side);
    const isShown = shown.includes(side);
    if (first < 0 && isShown) findings.push(missingSide(site, side, `${path}.lamps`));
    if (first >= 0 && !isShown && !shown.includes('hazard')) {
      findings.push(
        warning('aspect-never-shown', `${path}.lamps[${first}]`, {
          what: `The ${side} lamps of ${site.name} can never flash.`,
          why: 'Nothing asks for them.',
          cure: `Name an input for ${side} or for hazard, or take the lamps out.`,
        }),
      );
    }
  }
  for (const [index, { shows, id }] of switches.entries()) {
    const earlier = switches.slice(0, index).find((it) => it.id === id);
    if (earlier === undefined) continue;
    findings.push(
      error('switch-twice', `${path}.switches.${shows}`, {
        what: `The input "${id}" asks for ${earlier.shows} and for ${shows}.`,
        why: 'One input cannot ask for two things.',
        cure: 'Use two inputs; one switch for both sides is "hazard".',
      }),
    );
  }
  return findings;
}

function missingSide(site: Indicators, side: string, path: string): Finding {
  return warning('missing-lamp', path, {
    what: `${site.name} has no lamp on the ${side}.`,
    why: 'Asked for that side, nothing would flash.',
    cure: 'Add the lamp with its pin.',
  });
}
