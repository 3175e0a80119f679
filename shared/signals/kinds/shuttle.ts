/** From road-works shuttle signals to a program: one end at a time, by detectors or by time. */
import type { Finding } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { Shuttle } from '../../layout/kinds/shuttle.ts';
import { toMs } from '../../layout/scalars.ts';
import { COMMON, fact, type Practice, type ShuttlePractice, type TimeRule } from '../../practice/practice.ts';
import { duplicateIds, seconds } from '../names.ts';
import type { Planned } from '../site.ts';
import { notUsed } from './lamp-parts.ts';
import {
  AMBER,
  GREEN,
  type Look,
  lampsOf,
  lookOf,
  missingLamps,
  pairs,
  RED,
  RED_WITH_AMBER,
  roadLamps,
  type Show,
} from './road-lamps.ts';
import { ALWAYS, RoadProgram } from './road-program.ts';
import { checkExists, checkRule } from './road-times.ts';

/** Of the slowest traffic through the works, km/h (15 mph); common practice, no source. */
export const CLEARING_SPEED = 24;

/** Least time at rest, so that the heads do not twitch. */
const REST: TimeRule = {
  name: 'Least rest',
  usual: fact(1000, 'common', COMMON),
  range: null,
  dial: fact([10, 10000], 'common', COMMON),
};

type End = 0 | 1;
const ENDS = [0, 1] as const;
const GROUPS = ['first', 'second'] as const;

export function planShuttle(site: Shuttle, path: string, practice: Practice): Planned {
  const rules = practice.shuttle;
  const owners = ENDS.map((end) => {
    const { name, lamps } = site.ends[end];
    return { name, group: GROUPS[end], lamps, path: `${path}.ends[${end}].lamps` };
  });
  const lamps = roadLamps(owners, ['red', 'amber', 'green']);
  const writer = new RoadProgram(path, lamps);
  writer.findings.push(
    ...checkExists(practice, 'shuttle', path),
    ...duplicateIds(site.ends, `${path}.ends`, 'end'),
    ...(lamps.length === 0 ? [] : missingLamps(site, lamps, wantedLamps(site, path))),
    ...checkSite(site, path, practice),
  );
  const [one, other] = [site.ends[0].detector, site.ends[1].detector];
  const actuated = one !== undefined && other !== undefined && one !== other;
  // First of all dials: they are what one turns most.
  for (const end of ENDS) greenDial(writer, site, rules, end);
  const cycle = actuated ? byDetectors(writer, site, rules, [one, other]) : byTime(writer, site, rules);
  const of = (end: End, part: string) => lampsOf(lamps, GROUPS[end], part);
  return writer.finish({
    name: `Shuttle, ${actuated ? 'by detectors' : 'by time'}`,
    flash: null,
    fault: bothShow(RED),
    safe: bothShow(RED),
    conflicts: [
      ...pairs(of(0, 'green'), of(1, 'green')),
      ...pairs(of(0, 'green'), of(1, 'amber')),
      ...pairs(of(0, 'amber'), of(1, 'green')),
      ...pairs(of(0, 'amber'), of(1, 'amber')),
    ],
    offset: toMs(site.startDelay ?? 0),
    cycle,
  });
}

function bothShow(look: Look): Show {
  return { first: look, second: look };
}

function endShows(end: End, look: Look): Show {
  return end === 0 ? { first: look, second: RED } : { first: RED, second: look };
}

/** All red at rest; whoever comes is served, in turn while both ends have traffic. */
function byDetectors(
  writer: RoadProgram,
  site: Shuttle,
  rules: ShuttlePractice,
  detectors: readonly [string, string],
): null {
  const one = [writer.oneInput(detectors[0], 'ends[0].detector')];
  const other = [writer.oneInput(detectors[1], 'ends[1].detector')];
  const rest = writer.dial('rest', REST);
  writer.mark('rest');
  const idle = rules.idle.value === 'green' ? RED : lookOf(rules.idle.value);
  writer.interval(
    'Nobody waits',
    { op: 'until', min: rest, when: { kind: 'demand', inputs: [...one, ...other] } },
    bothShow(idle),
  );
  writer.jump(`${site.ends[0].name} waits`, { kind: 'demand', inputs: one }, 'serve-0');
  const serve = (end: End, own: readonly number[]): void => {
    const { name } = site.ends[end];
    writer.mark(`serve-${end}`);
    change(writer, site, rules, end, () => {
      const min = writer.dial('min-green', minGreen(rules), site.minGreen, 'minGreen');
      const gap = writer.dial('gap', rules.gap, site.gap, 'gap');
      const max = greenDial(writer, site, rules, end);
      // Nothing opposes by name, so that the green ends at a gap even when nobody waits.
      writer.interval(
        `${name} green`,
        { op: 'extend', min, gap, max, detectors: own, opposing: [] },
        endShows(end, GREEN),
      );
    });
  };
  serve(1, other);
  writer.jump(`${site.ends[0].name} waits`, { kind: 'demand', inputs: one }, 'serve-0');
  writer.jump('Nobody waits', ALWAYS, 'rest');
  serve(0, one);
  writer.jump(`${site.ends[1].name} waits`, { kind: 'demand', inputs: other }, 'serve-1');
  return null;
}

/** One end after the other; the length of one turn, ms. */
function byTime(writer: RoadProgram, site: Shuttle, rules: ShuttlePractice): number {
  for (const end of ENDS) {
    change(writer, site, rules, end, () => {
      const dial = greenDial(writer, site, rules, end);
      writer.interval(`${site.ends[end].name} green`, { op: 'after', dial }, endShows(end, GREEN));
    });
  }
  return writer.spans();
}

/** One end's turn: red with amber, its green, amber, and all red while the lane clears. */
function change(writer: RoadProgram, site: Shuttle, rules: ShuttlePractice, end: End, green: () => void): void {
  const { name } = site.ends[end];
  if (rules.redWithAmber !== null) {
    const dial = writer.dial('red-with-amber', rules.redWithAmber, site.redWithAmber, 'redWithAmber');
    writer.interval(`${name} red with amber`, { op: 'after', dial }, endShows(end, RED_WITH_AMBER));
  }
  green();
  const amber = writer.dial('amber', rules.amber, site.amber, 'amber');
  writer.interval(`${name} amber`, { op: 'after', dial: amber }, endShows(end, AMBER));
  const clear = clearingTime(site, rules);
  if (clear === 0) return;
  const dial = writer.dial('all-red', { ...rules.allRed, usual: fact(clear, 'derived', COMMON) });
  writer.interval('All red, lane clears', { op: 'after', dial }, bothShow(RED));
}

/** ms: as written, or length by speed up to the next half second, or the practice's. */
function clearingTime(site: Shuttle, rules: ShuttlePractice): number {
  if (site.allRed !== undefined) return toMs(site.allRed);
  if (site.length === undefined) return rules.allRed.usual.value;
  return clearingMs(site.length, site.speed ?? CLEARING_SPEED);
}

/** Time to drive so many metres at so many km/h, ms, up to the next half second. */
export function clearingMs(metres: number, kmh: number): number {
  return Math.ceil((metres * 3.6 * 2) / kmh - 1e-9) * 500;
}

function greenDial(writer: RoadProgram, site: Shuttle, rules: ShuttlePractice, end: End): number {
  const { id, name, green } = site.ends[end];
  const rule = { ...rules.green, name: `${rules.green.name}, ${name}` };
  return writer.dial(`green-${id}`, rule, green, `ends[${end}].green`);
}

function minGreen(rules: ShuttlePractice): TimeRule {
  return { name: 'Minimum green', usual: rules.minGreen, range: null, dial: rules.green.dial };
}

function wantedLamps(site: Shuttle, path: string) {
  return ENDS.flatMap((end) =>
    ['red', 'amber', 'green'].map((part) => {
      const words = `the ${part} of ${site.ends[end].name}`;
      return { group: GROUPS[end], part, words, path: `${path}.ends[${end}].lamps` };
    }),
  );
}

function checkSite(site: Shuttle, path: string, practice: Practice): Finding[] {
  const rules = practice.shuttle;
  const findings: Finding[] = [...checkDetectors(site, path), ...checkMinimum(site, path, rules)];
  const clear = clearingTime(site, rules) / 1000;
  const place = site.allRed === undefined && site.length !== undefined ? 'length' : 'allRed';
  if (clear > 0) findings.push(...checkRule(clear, rules.allRed, `${path}.${place}`));
  if (site.length !== undefined && rules.longest !== null && site.length > rules.longest.value) {
    findings.push(tooLong(site.length, rules.longest.value, rules.longest.source, `${path}.length`));
  }
  const unused = (field: keyof Shuttle, because: string): void => {
    if (site[field] !== undefined) findings.push(notUsed(`${path}.${field}`, field, because));
  };
  if (site.length === undefined) unused('speed', 'Only with the length of the works does it give a time');
  if (rules.redWithAmber === null) unused('redWithAmber', `The practice "${practice.name}" has no red with amber`);
  unused('group', 'The site has nothing that waits for a common cycle');
  return findings;
}

function checkDetectors(site: Shuttle, path: string): Finding[] {
  const [one, other] = site.ends.map((end) => end.detector);
  if (one === undefined && other === undefined) return [];
  if (one !== undefined && one === other) {
    return [
      warning('demand-never-served', `${path}.ends[1].detector`, {
        what: 'Both ends have the same detector.',
        why: 'Nobody could tell which end waits; the greens come by time.',
        cure: 'Give each end its own, or take both out.',
      }),
    ];
  }
  if (one !== undefined && other !== undefined) return [];
  const without = one === undefined ? 0 : 1;
  return [
    warning('demand-never-served', `${path}.ends[${without}]`, {
      what: `${site.ends[without].name} has no detector, and the other end has one.`,
      why: 'Whoever comes there would wait for ever, so the greens come by time.',
      cure: 'Give it a detector, too, or take the other one out.',
    }),
  ];
}

function checkMinimum(site: Shuttle, path: string, rules: ShuttlePractice): Finding[] {
  const { value, source, confidence } = rules.minGreen;
  const least = site.minGreen === undefined ? value : toMs(site.minGreen);
  const short = (given: number, least: number, because: string, place: string): Finding =>
    warning('green-below-minimum', place, {
      what: `The green of ${seconds(given)} is shorter than the minimum of ${seconds(least)}.`,
      why: because,
      cure: 'Make it longer, or leave it if you like it so.',
    });
  const findings: Finding[] = [];
  if (least < value && confidence !== 'memory') {
    findings.push(
      short(least, value, `A green that is over at once lets nobody through (${source}).`, `${path}.minGreen`),
    );
  }
  for (const end of ENDS) {
    const { green } = site.ends[end];
    if (green === undefined || toMs(green) >= least) continue;
    findings.push(short(toMs(green), least, 'It would end before its minimum.', `${path}.ends[${end}].green`));
  }
  return findings;
}

function tooLong(length: number, longest: number, source: string, path: string): Finding {
  return warning('works-too-long', path, {
    what: `The works are ${length} m long.`,
    why: `Signals of this kind work past at most ${longest} m (${source}).`,
    cure: 'Shorten them, or leave it if you like it so.',
  });
}
