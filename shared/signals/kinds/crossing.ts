/** From a signal-controlled crossing without flashing amber to a program: far-side or near-side figures. */
import type { Crossing } from '../../layout/kinds/crossing.ts';
import { toMs } from '../../layout/scalars.ts';
import type { PedestrianClearance, Practice, TimeRule } from '../../practice/practice.ts';
import { COMMON, fact } from '../../practice/practice.ts';
import type { CommonCycle, Planned } from '../site.ts';
import { notUsed } from './lamp-parts.ts';
import { againstFigures, crossingLamps, VEHICLES_GO, vehiclesGreen } from './road-crossing.ts';
import {
  AMBER,
  DARK,
  FLASHING_GREEN,
  FLASHING_RED,
  GREEN,
  type Look,
  lookOf,
  RED,
  RED_WITH_AMBER,
  type Show,
} from './road-lamps.ts';
import { ALWAYS, RoadProgram } from './road-program.ts';
import { checkExists, checkFlash, checkRule } from './road-times.ts';

const CLEARANCE_LOOKS: Readonly<Record<PedestrianClearance, Look>> = {
  blackout: DARK,
  'flashing-red': FLASHING_RED,
  'flashing-green': FLASHING_GREEN,
  red: RED,
};

/** Where the practice has no detectors on crossings and the model has. */
const EXTENSION: TimeRule = {
  name: 'Longest extension',
  usual: fact(10000, 'common', COMMON),
  range: null,
  dial: fact([10, 60000], 'common', COMMON),
};

/** How long nobody is seen at the kerb before a demand is dropped. */
const DROP_AFTER: TimeRule = {
  name: 'Demand dropped after',
  usual: fact(2000, 'common', COMMON),
  range: null,
  dial: fact([100, 20000], 'common', COMMON),
};

/** On a common cycle (`common`) the vehicles' green ends at the site's offset. */
export function planCrossing(site: Crossing, path: string, practice: Practice, common: CommonCycle | null): Planned {
  const rules = practice.crossing;
  const { lamps, findings } = crossingLamps(site, path);
  const writer = new RoadProgram(path, lamps);
  writer.findings.push(...checkExists(practice, 'crossing', path), ...findings);
  const buttons = writer.input(site.buttons ?? [], 'buttons');
  vehiclesGreen(writer, site, rules.vehicleGreen, buttons, common);
  dropDemands(writer, site, path, buttons, common !== null);

  let cycle = writer.dialValue(0);
  const time = (key: Times): number => (site[key] === undefined ? rules[key].usual.value : toMs(site[key]));
  const span = (label: string, key: Times, id: string, show: Show): void => {
    if (time(key) === 0) return;
    const dial = writer.dial(id, rules[key], site[key], key);
    cycle += writer.dialValue(dial);
    writer.interval(label, { op: 'after', dial }, show);
  };
  const red = { vehicles: RED, pedestrians: RED };
  span('Vehicles amber', 'amber', 'amber', { vehicles: AMBER, pedestrians: RED });
  span('All red', 'allRedBefore', 'all-red-before', red);
  writer.clear(buttons);
  span('Green figure', 'walk', 'walk', { vehicles: RED, pedestrians: GREEN });

  const shows = site.figures === 'near' ? 'red' : rules.pedestrianClearance.value;
  const clearing = { vehicles: RED, pedestrians: CLEARANCE_LOOKS[shows] };
  const detectors = writer.input(site.onCrossingDetectors ?? [], 'onCrossingDetectors');
  if (detectors.length === 0) {
    span('Clearance', 'clearance', 'clearance', clearing);
    if (site.extension !== undefined) {
      writer.findings.push(notUsed(`${path}.extension`, 'extension', 'The site has no detector on the crossing'));
    }
  } else {
    const min = writer.dial('clearance', rules.clearance, site.clearance, 'clearance');
    const max = clearanceMost(writer, site, path, rules.clearance, rules.extension ?? EXTENSION);
    cycle += writer.dialValue(min);
    writer.interval('Clearance', { op: 'untilMax', min, max, when: { kind: 'inactive', inputs: detectors } }, clearing);
  }
  span('All red', 'allRedAfter', 'all-red-after', red);
  if (rules.redWithAmber !== null) {
    const dial = writer.dial('red-with-amber', rules.redWithAmber, site.redWithAmber, 'redWithAmber');
    cycle += writer.dialValue(dial);
    writer.interval('Vehicles red with amber', { op: 'after', dial }, { vehicles: RED_WITH_AMBER, pedestrians: RED });
  } else if (site.redWithAmber !== undefined) {
    const why = `The practice "${practice.name}" has no red with amber`;
    writer.findings.push(notUsed(`${path}.redWithAmber`, 'redWithAmber', why));
  }
  return writer.finish({
    name: `Crossing, ${site.figures ?? 'far'}-side figures`,
    flash: flashTimes(writer, site, path, practice, shows),
    fault: { vehicles: lookOf(rules.fault.value) },
    safe: { vehicles: lookOf(rules.safe.value), pedestrians: RED },
    // Amber, too: nobody may still be coming while the figure is green.
    conflicts: againstFigures(lamps, ['amber', 'green']),
    offset: common === null ? toMs(site.startDelay ?? 0) : 0,
    cycle,
  });
}

type Times = 'amber' | 'allRedBefore' | 'walk' | 'clearance' | 'allRedAfter';

/** With kerb detectors: whoever pressed and went away stops nobody. */
function dropDemands(
  writer: RoadProgram,
  site: Crossing,
  path: string,
  buttons: readonly number[],
  onCycle: boolean,
): void {
  const kerb = site.kerbDetectors ?? [];
  if (kerb.length === 0) return;
  if (buttons.length === 0) {
    writer.findings.push(notUsed(`${path}.kerbDetectors`, 'kerbDetectors', 'The site has no button'));
    return;
  }
  const waits = writer.input(kerb, 'kerbDetectors');
  const now = writer.fixed('none', 'No minimum', 0);
  const dropAfter = writer.dial('drop-after', DROP_AFTER);
  writer.mark('look');
  const seen = { kind: 'active', inputs: waits } as const;
  writer.interval(
    'Vehicles green, somebody called',
    { op: 'untilMax', min: now, max: dropAfter, when: seen },
    VEHICLES_GO,
  );
  writer.jump('Somebody waits', seen, 'stop');
  writer.clear(buttons);
  if (onCycle) {
    writer.jump('Nobody waits any more', ALWAYS, 'vehicles-green');
  } else {
    // The least green has passed already: the next call counts at once.
    writer.interval(
      'Vehicles green',
      { op: 'until', min: now, when: { kind: 'demand', inputs: buttons } },
      VEHICLES_GO,
    );
    writer.jump('Called again', ALWAYS, 'look');
  }
  writer.mark('stop');
}

/** The longest clearance: its usual time and all that detectors can add. */
function clearanceMost(
  writer: RoadProgram,
  site: Crossing,
  path: string,
  clearance: TimeRule,
  extension: TimeRule,
): number {
  const of = (given: number | undefined, rule: TimeRule): number =>
    given === undefined ? rule.usual.value : toMs(given);
  const most = of(site.clearance, clearance) + of(site.extension, extension);
  const [least] = clearance.dial.value;
  const greatest = clearance.dial.value[1] + extension.dial.value[1];
  writer.findings.push(...checkRule(site.extension, extension, `${path}.extension`));
  const rule = { name: 'Longest clearance', usual: fact(most, 'derived', COMMON), range: null };
  return writer.dial('clearance-most', { ...rule, dial: fact([least, greatest], 'common', COMMON) });
}

function flashTimes(writer: RoadProgram, site: Crossing, path: string, practice: Practice, shows: PedestrianClearance) {
  const rules = practice.crossing;
  if (shows === 'blackout' || shows === 'red') {
    for (const key of ['flashOn', 'flashOff'] as const) {
      if (site[key] !== undefined) writer.findings.push(notUsed(`${path}.${key}`, key, 'Nothing flashes here'));
    }
    return null;
  }
  const on = writer.dial('flash-on', rules.flashOn, site.flashOn, 'flashOn');
  const off = writer.dial('flash-off', rules.flashOff, site.flashOff, 'flashOff');
  writer.findings.push(...checkFlash(writer.dialValue(on), writer.dialValue(off), rules.flashRate, `${path}.flashOn`));
  return { on, off };
}
