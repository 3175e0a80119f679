/** From the road lights of a level crossing to a program: dark, amber where there is one, reds while a train is near. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { LevelCrossing } from '../../layout/kinds/level-crossing.ts';
import { toMs } from '../../layout/scalars.ts';
import { COMMON, fact, type LevelCrossingPractice, type Practice, type TimeRule } from '../../practice/practice.ts';
import { duplicateIds, seconds } from '../names.ts';
import type { Planned } from '../site.ts';
import { notUsed } from './lamp-parts.ts';
import { lampsOf, missingLamps, pairs, type RoadLamp, roadLamps, type Show } from './road-lamps.ts';
import { ALWAYS, RoadProgram } from './road-program.ts';
import { checkExists, checkFlash } from './road-times.ts';

const modelTime = (name: string, usual: number): TimeRule => ({
  name,
  usual: fact(usual, 'common', COMMON),
  range: null,
  dial: fact([1000, 32767000], 'common', COMMON),
});

/** Trains by time, where no detector sees them. */
const QUIET_LEAST = modelTime('Least quiet time', 60000);
const QUIET_MOST = modelTime('Greatest quiet time', 180000);
const PASSING = modelTime('Train passes', 40000);
const CLEAR_AFTER: TimeRule = {
  ...modelTime('Clear after', 2000),
  dial: fact([100, 60000], 'common', COMMON),
};

const AMBER: Show = { road: { amber: 'lit' } };
const CLEAR: Show = {};

export function planLevelCrossing(site: LevelCrossing, path: string, practice: Practice): Planned {
  const rules = practice.levelCrossing;
  const alternating = rules.reds.value === 'alternating';
  const lamps = roadLamps(
    [
      { name: 'Road', group: 'road', lamps: site.lights, path: `${path}.lights` },
      ...(site.heads ?? []).map(({ name, lights }, index) => {
        return { name, group: 'road', lamps: lights, path: `${path}.heads[${index}].lights` };
      }),
    ],
    ['amber', 'left', 'right'],
  );
  const writer = new RoadProgram(path, lamps);
  writer.findings.push(
    ...checkExists(practice, 'levelCrossing', path),
    ...duplicateIds(site.heads ?? [], `${path}.heads`, 'head'),
    ...checkLamps(site, path, lamps, rules),
    ...checkFields(site, path, rules),
  );
  const reds: Show = { road: alternating ? { left: 'flash', right: 'alternate' } : { left: 'lit', right: 'lit' } };
  const detectors = writer.input(site.detectors ?? [], 'detectors');
  const amber = (): void => {
    if (rules.amber === null) return;
    const dial = writer.dial('amber', rules.amber, site.amber, 'amber');
    writer.interval('Amber', { op: 'after', dial }, AMBER);
  };
  const cycle = detectors.length > 0 ? null : byTime(writer, site, path, amber, reds);
  if (detectors.length > 0) byDetectors(writer, site, rules, detectors, amber, reds);
  return writer.finish({
    name: `Level crossing, reds ${rules.reds.value}`,
    flash: alternating ? flashTimes(writer, site, path, rules) : null,
    // Whatever is wrong: nobody drives onto the line.
    fault: reds,
    safe: reds,
    conflicts: ['left', 'right'].flatMap((part) =>
      pairs(lampsOf(lamps, 'road', 'amber'), lampsOf(lamps, 'road', part)),
    ),
    offset: toMs(site.startDelay ?? 0),
    cycle,
  });
}

function byDetectors(
  writer: RoadProgram,
  site: LevelCrossing,
  rules: LevelCrossingPractice,
  inputs: readonly number[],
  amber: () => void,
  reds: Show,
): void {
  const near = { kind: 'active', inputs } as const;
  const clear = { kind: 'inactive', inputs } as const;
  const none = writer.fixed('none', 'No minimum', 0);
  const least = writer.dial('least-red', rules.leastRed, site.leastRed, 'leastRed');
  writer.interval('No train', { op: 'until', min: none, when: near }, CLEAR);
  amber();
  writer.interval('Train near', { op: 'until', min: least, when: clear }, reds);
  if (site.clearAfter === undefined) return;
  const max = writer.dial('clear-after', CLEAR_AFTER, site.clearAfter, 'clearAfter');
  writer.mark('last-wagon');
  writer.interval('Last wagon?', { op: 'untilMax', min: none, max, when: near }, reds);
  writer.jump('Line clear', clear, 'clear');
  writer.interval('Train near still', { op: 'until', min: none, when: clear }, reds);
  writer.jump('Look again', ALWAYS, 'last-wagon');
  writer.mark('clear');
}

/** Trains at regular or random intervals; the length of one turn, ms, where it is always the same. */
function byTime(writer: RoadProgram, site: LevelCrossing, path: string, amber: () => void, reds: Show): number | null {
  const low = writer.dial('quiet-least', QUIET_LEAST, site.quiet?.least, 'quiet.least');
  const high = writer.dial('quiet-most', QUIET_MOST, site.quiet?.most, 'quiet.most');
  const [least, most] = [writer.dialValue(low), writer.dialValue(high)];
  if (least > most) writer.findings.push(quietUpsideDown(`${path}.quiet`, least, most));
  writer.interval('No train', { op: 'random', low, high }, CLEAR);
  amber();
  const passing = writer.dial('passing', PASSING, site.passing, 'passing');
  writer.interval('Train passes', { op: 'after', dial: passing }, reds);
  return least === most ? writer.spans() : null;
}

function checkLamps(
  site: LevelCrossing,
  path: string,
  lamps: readonly RoadLamp[],
  rules: LevelCrossingPractice,
): Finding[] {
  if (lamps.length === 0) return [];
  const wanted = (part: string, words: string) => ({ group: 'road', part, words, path: `${path}.lights` });
  const red =
    rules.reds.value === 'alternating' ? [wanted('left', 'the left red'), wanted('right', 'the right red')] : [];
  const steady = lamps.some((lamp) => lamp.part !== 'amber') ? [] : [wanted('left', 'the red')];
  return missingLamps(site, lamps, [
    ...(rules.amber === null ? [] : [wanted('amber', 'the amber')]),
    ...(rules.reds.value === 'alternating' ? red : steady),
  ]);
}

/** What the site names and nothing asks for. */
function checkFields(site: LevelCrossing, path: string, rules: LevelCrossingPractice): Finding[] {
  const findings: Finding[] = [];
  const unused = (field: string, because: string): void => {
    findings.push(notUsed(`${path}.${field}`, field.split('.').at(-1) ?? field, because));
  };
  if (rules.amber === null) {
    const because = `The reds come at once (${rules.reds.source})`;
    if (site.amber !== undefined) unused('amber', because);
    if (site.lights?.amber !== undefined) unused('lights.amber', because);
    site.heads?.forEach((head, index) => {
      if (head.lights?.amber !== undefined) unused(`heads[${index}].lights.amber`, because);
    });
  }
  if (rules.reds.value === 'steady') {
    for (const key of ['flashOn', 'flashOff'] as const) {
      if (site[key] !== undefined) unused(key, `The red is steady (${rules.reds.source})`);
    }
  }
  const wired = (site.detectors ?? []).length > 0;
  for (const key of ['quiet', 'passing'] as const) {
    if (wired && site[key] !== undefined) unused(key, 'The site has detectors, which say when a train is near');
  }
  for (const key of ['clearAfter', 'leastRed'] as const) {
    if (!wired && site[key] !== undefined) unused(key, 'The site has no detectors: its trains come by time');
  }
  if (site.group !== undefined) unused('group', 'The site has nothing that waits for a common cycle');
  return findings;
}

function flashTimes(writer: RoadProgram, site: LevelCrossing, path: string, rules: LevelCrossingPractice) {
  const on = writer.dial('flash-on', rules.flashOn, site.flashOn, 'flashOn');
  const off = writer.dial('flash-off', rules.flashOff, site.flashOff, 'flashOff');
  const field = site.flashOn === undefined && site.flashOff !== undefined ? 'flashOff' : 'flashOn';
  writer.findings.push(...checkFlash(writer.dialValue(on), writer.dialValue(off), rules.flashRate, `${path}.${field}`));
  return { on, off };
}

function quietUpsideDown(path: string, least: number, most: number): Finding {
  return error('time-outside-limits', path, {
    what: `The quiet time is at least ${seconds(least)} and at most ${seconds(most)}.`,
    why: 'No time is both.',
    cure: 'Write the smaller one as the least.',
  });
}
