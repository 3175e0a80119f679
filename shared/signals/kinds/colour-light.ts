/** From a colour-light signal to a program. Aspects count from the most restrictive on. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import type { ColourLight } from '../../layout/kinds/colour-light.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Practice } from '../../practice/practice.ts';
import type { LampState } from '../../table/model.ts';
import type { PlannedDial } from '../dials.ts';
import type { CommonCycle, Planned, PlannedLamp } from '../site.ts';
import { aspectsOf, decidingSections, type HeadLamp, headOf, type ShownAspect } from './colour-light-aspects.ts';
import { checkColourLight } from './colour-light-checks.ts';
import { byPassing, bySections, bySync, byTime, type Drive } from './colour-light-rows.ts';
import { AT_ONCE, checkBetween, limitsOf, places, rowsOf, ruleDial } from './lamp-parts.ts';

export function planColourLight(
  site: ColourLight,
  path: string,
  practice: Practice,
  common: CommonCycle | null,
): Planned {
  const findings: Finding[] = checkColourLight(site, path, practice, common);
  if (hasErrors(findings)) return { plan: null, findings };
  const wired = headOf(site, practice).filter((lamp) => site.lamps[lamp] !== undefined);
  const states = (lit: readonly HeadLamp[]): LampState[] =>
    wired.map((lamp) => (lit.includes(lamp) ? ('lit' as const) : ('dark' as const)));
  const aspects = aspectsOf(site).map(({ aspect, lit }) => ({ aspect, states: states(lit) }));
  const drive = driveOf(site, practice, common, aspects);
  const [low, high] = drive.dials;
  if (drive.random && low && high) findings.push(...checkBetween(low, high, `${path}.trains`));
  const red = states(['red']);
  return {
    plan: {
      program: {
        name: `Colour-light signal, ${site.aspects} aspects`,
        lamps: wired,
        dials: limitsOf(drive.dials),
        inputs: drive.inputs.map(({ id }) => id),
        flash: null,
        fault: red,
        safe: red,
        conflicts: conflictsOf(aspects.map((it) => it.states)),
        rows: rowsOf(drive.steps),
      },
      start: places(drive.steps).get(drive.start) ?? 0,
      offset: common === null ? toMs(site.startDelay ?? 0) : 0,
      dials: drive.dials,
      lamps: wired.flatMap((lamp) => plannedLamp(site, lamp, path)),
      inputs: drive.inputs.map(({ id, key }) => ({ id, path: `${path}.${key}` })),
      rows: drive.steps.map(({ label }) => ({ label })),
      cycle: null,
    },
    findings,
  };
}

function driveOf(
  site: ColourLight,
  practice: Practice,
  common: CommonCycle | null,
  aspects: readonly ShownAspect[],
): Drive {
  const rules = practice.railway;
  const section = ruleDial('section', rules.section, site.section);
  const deciding = decidingSections(site);
  if (deciding.length > 0) {
    return bySections(aspects, deciding, [AT_ONCE, ruleDial('overlap', rules.overlap, site.overlap)]);
  }
  if (site.passing !== undefined) return byPassing(aspects, site.passing, [AT_ONCE, section]);
  if (common !== null) {
    const max = common.greatest;
    const train: PlannedDial = {
      id: 'offset',
      name: 'Train, in the common cycle',
      min: 0,
      max,
      value: toMs(site.offset ?? 0),
    };
    return bySync(aspects, [AT_ONCE, train, section]);
  }
  const low = ruleDial('trains-low', rules.trainsLow, site.trains?.shortest);
  return byTime(aspects, [low, ruleDial('trains-high', rules.trainsHigh, site.trains?.longest), section]);
}

function plannedLamp(site: ColourLight, lamp: HeadLamp, path: string): PlannedLamp[] {
  const output = site.lamps[lamp];
  if (output === undefined) return [];
  const colour = lamp === 'upperYellow' ? 'yellow' : lamp;
  const label = lamp === 'upperYellow' ? 'upper' : lamp === 'yellow' && site.aspects === 4 ? 'lower' : 'signal';
  return [{ label, colour, output, path: `${path}.lamps.${lamp}` }];
}

/** Pairs of lamps that no aspect shows together: the board watches them. */
function conflictsOf(aspects: readonly (readonly LampState[])[]): [number, number][] {
  const pairs: [number, number][] = [];
  const lamps = aspects[0]?.length ?? 0;
  for (let one = 0; one < lamps; one++) {
    for (let other = one + 1; other < lamps; other++) {
      if (!aspects.some((states) => states[one] === 'lit' && states[other] === 'lit')) pairs.push([one, other]);
    }
  }
  return pairs;
}
