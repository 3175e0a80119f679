/** From a pelican crossing to a program: its periods A to G in order. */
import type { Pelican } from '../../layout/kinds/pelican.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Practice } from '../../practice/practice.ts';
import type { CommonCycle, Planned } from '../site.ts';
import { againstFigures, crossingLamps, vehiclesGreen } from './road-crossing.ts';
import { AMBER, FLASHING_AMBER, FLASHING_GREEN, GREEN, lookOf, RED, type Show } from './road-lamps.ts';
import { RoadProgram } from './road-program.ts';
import { checkExists, checkFlash } from './road-times.ts';

/** On a common cycle (`common`) the vehicles' green ends at the site's offset. */
export function planPelican(site: Pelican, path: string, practice: Practice, common: CommonCycle | null): Planned {
  const rules = practice.pelican;
  const { lamps, findings } = crossingLamps(site, path);
  const writer = new RoadProgram(path, lamps);
  writer.findings.push(...checkExists(practice, 'pelican', path), ...findings);
  const buttons = writer.input(site.buttons ?? [], 'buttons');
  vehiclesGreen(writer, site, rules.vehicleGreen, buttons, common);

  let cycle = writer.dialValue(0);
  const period = (label: string, key: Periods, id: string, show: Show): void => {
    // A period of no length has no row.
    if ((site[key] === undefined ? rules[key].usual.value : toMs(site[key])) === 0) return;
    const dial = writer.dial(id, rules[key], site[key], key);
    cycle += writer.dialValue(dial);
    writer.interval(label, { op: 'after', dial }, show);
  };
  period('Vehicles amber', 'amber', 'amber', { vehicles: AMBER, pedestrians: RED });
  period('All red', 'allRed', 'all-red', { vehicles: RED, pedestrians: RED });
  writer.clear(buttons);
  period('Green figure', 'steadyGreen', 'steady-green', { vehicles: RED, pedestrians: GREEN });
  period('Green figure flashes, vehicles held', 'heldFlashing', 'held-flashing', {
    vehicles: RED,
    pedestrians: FLASHING_GREEN,
  });
  period('Green figure and amber flash', 'flashing', 'flashing', {
    vehicles: FLASHING_AMBER,
    pedestrians: FLASHING_GREEN,
  });
  period('Amber flashes, red figure', 'clearance', 'clearance', { vehicles: FLASHING_AMBER, pedestrians: RED });

  const on = writer.dial('flash-on', rules.flashOn, site.flashOn, 'flashOn');
  const off = writer.dial('flash-off', rules.flashOff, site.flashOff, 'flashOff');
  const flashPath = `${path}.${site.flashOn === undefined && site.flashOff !== undefined ? 'flashOff' : 'flashOn'}`;
  writer.findings.push(...checkFlash(writer.dialValue(on), writer.dialValue(off), rules.flashRate, flashPath));
  return writer.finish({
    name: 'Pelican crossing',
    flash: { on, off },
    fault: { vehicles: lookOf(rules.fault.value) },
    safe: { vehicles: lookOf(rules.safe.value), pedestrians: RED },
    conflicts: againstFigures(lamps, ['green']),
    offset: common === null ? toMs(site.startDelay ?? 0) : 0,
    cycle,
  });
}

type Periods = 'amber' | 'allRed' | 'steadyGreen' | 'heldFlashing' | 'flashing' | 'clearance';
