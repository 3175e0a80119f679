/** What can be wrong with a colour-light signal. */
import type { Finding } from '../../findings/finding.ts';
import { error, warning } from '../../findings/make.ts';
import type { ColourLight } from '../../layout/kinds/colour-light.ts';
import { toMs } from '../../layout/scalars.ts';
import { missing } from '../../practice/missing.ts';
import type { Practice } from '../../practice/practice.ts';
import { checkTime } from '../checks.ts';
import { seconds } from '../names.ts';
import type { CommonCycle } from '../site.ts';
import { aspectsOf, decidingSections, type HeadLamp, headOf } from './colour-light-aspects.ts';
import { notUsed } from './lamp-parts.ts';

const NAMES: Readonly<Record<HeadLamp, string>> = {
  red: 'red lamp',
  yellow: 'yellow lamp',
  green: 'green lamp',
  upperYellow: 'upper yellow lamp',
};

export function checkColourLight(
  site: ColourLight,
  path: string,
  practice: Practice,
  common: CommonCycle | null,
): Finding[] {
  const rules = practice.railway;
  return [
    ...checkPractice(site, path, practice),
    ...checkLamps(site, path, practice),
    ...checkSections(site, path),
    ...checkUse(site, path),
    ...checkTime(site.overlap, rules.overlap, `${path}.overlap`),
    ...checkTime(site.section, rules.section, `${path}.section`),
    ...checkTime(site.trains?.shortest, rules.trainsLow, `${path}.trains.shortest`),
    ...checkTime(site.trains?.longest, rules.trainsHigh, `${path}.trains.longest`),
    ...checkCycle(site, path, practice, common),
  ];
}

function checkPractice(site: ColourLight, path: string, practice: Practice): Finding[] {
  const lacking = missing(practice, 'railway');
  const { aspects } = practice.railway;
  const strange = aspectsOf(site).find(({ aspect }) => !aspects.value.includes(aspect));
  if (lacking === null && strange === undefined) return [];
  const source = lacking?.source ?? aspects.source;
  const what = lacking === null ? `The ${strange?.aspect.replace('-', ' ')} aspect is` : 'Colour-light signals are';
  return [
    warning('not-in-practice', lacking === null ? `${path}.aspects` : path, {
      what: `${what} not part of the practice "${practice.name}".`,
      why: `A visitor from there would wonder (${source}).`,
      cure: 'Leave it if you like it so, or choose fewer aspects or another practice.',
    }),
  ];
}

function checkLamps(site: ColourLight, path: string, practice: Practice): Finding[] {
  const head = headOf(site, practice);
  if (head.every((lamp) => site.lamps[lamp] === undefined)) {
    return [
      error('no-lamps', `${path}.lamps`, {
        what: `${site.name} has no lamps.`,
        why: 'Without them there is nothing to run.',
        cure: 'Give each of them its pin, red first.',
      }),
    ];
  }
  const known = Object.keys(NAMES) as HeadLamp[];
  return known.flatMap((lamp) => {
    const isWired = site.lamps[lamp] !== undefined;
    if (isWired === head.includes(lamp)) return [];
    const place = `${path}.lamps.${lamp}`;
    if (isWired) return [notUsed(place, lamp, `A signal of ${site.aspects} aspects has no ${NAMES[lamp]}`)];
    return [
      warning('missing-lamp', place, {
        what: `${site.name} has no ${NAMES[lamp]}.`,
        why: lamp === 'upperYellow' ? 'Its double yellow would look like a single one.' : 'It would be dark instead.',
        cure: 'Give the lamp its pin, or choose fewer aspects.',
      }),
    ];
  });
}

/** Sections that decide nothing, and aspects that no section brings. */
function checkSections(site: ColourLight, path: string): Finding[] {
  const { sections } = site;
  if (sections === undefined) return [];
  if (sections.length === 0) {
    return [
      warning('no-detectors', `${path}.sections`, {
        what: `${site.name} names no detector of the sections ahead.`,
        why: 'It runs by time until one is there.',
        cure: 'Name the inputs of the detectors, the nearest section first, or take the list out.',
      }),
    ];
  }
  const surplus = sections.slice(site.aspects - 1);
  const deciding = new Set(decidingSections(site).map(({ at }) => at));
  return [
    ...surplus.map((id, index) => {
      const place = `${path}.sections[${site.aspects - 1 + index}]`;
      return notUsed(place, id, `${site.aspects} aspects tell of ${site.aspects - 1} sections ahead`);
    }),
    ...aspectsOf(site).flatMap(({ aspect }, at) => {
      if (deciding.has(at) || aspect === 'green') return [];
      const again = sections[at];
      return [
        warning('aspect-never-shown', again === undefined ? `${path}.sections` : `${path}.sections[${at}]`, {
          what: `${site.name} can never show ${aspect.replace('-', ' ')}.`,
          why:
            again === undefined
              ? `It would mean a train in section ${at + 1} ahead, and that section has no detector.`
              : `The detector "${again}" stands for a nearer section already.`,
          cure: 'Name a detector for each section, or choose fewer aspects.',
        }),
      ];
    }),
  ];
}

/** Values that this way of running the signal has no use for. */
function checkUse(site: ColourLight, path: string): Finding[] {
  const hasSections = decidingSections(site).length > 0;
  const hasDetector = hasSections || site.passing !== undefined;
  const unused = (key: 'passing' | 'section' | 'overlap' | 'trains' | 'group', isUsed: boolean, because: string) =>
    site[key] === undefined || isUsed ? [] : [notUsed(`${path}.${key}`, key, because)];
  return [
    ...unused('passing', !hasSections, 'The sections ahead decide'),
    ...unused('section', !hasSections, 'The sections ahead decide'),
    ...unused('overlap', hasSections, 'It follows a section that is clear again, and none has a detector'),
    ...unused('trains', !hasDetector, 'Detectors tell when a train comes'),
    ...unused('group', !hasDetector, 'Detectors tell when a train comes'),
    ...(site.group === undefined || hasDetector
      ? []
      : unused('trains', false, 'The common cycle tells when a train comes')),
  ];
}

/** By a common cycle: all steps after one train must be over before the next. */
function checkCycle(site: ColourLight, path: string, practice: Practice, common: CommonCycle | null): Finding[] {
  if (common === null || site.passing !== undefined || decidingSections(site).length > 0) return [];
  const section = site.section === undefined ? practice.railway.section.usual.value : toMs(site.section);
  const needed = section * (site.aspects - 1);
  const offset = toMs(site.offset ?? 0);
  const findings: Finding[] = [];
  if (needed >= common.cycle) {
    findings.push(
      error('cycle-too-short', `${path}.group`, {
        what: `${site.name} needs ${seconds(needed)} to clear, and the common cycle is ${seconds(common.cycle)}.`,
        why: 'It would miss every other train.',
        cure: 'Lengthen the cycle or shorten the time in a section.',
      }),
    );
  }
  if (offset >= common.cycle) {
    findings.push(
      error('offset-beyond-cycle', `${path}.offset`, {
        what: `The offset of ${seconds(offset)} is not within the common cycle of ${seconds(common.cycle)}.`,
        why: 'The train would pass when the next cycle has begun.',
        cure: `Write less than ${common.cycle / 1000}.`,
      }),
    );
  }
  return findings;
}
