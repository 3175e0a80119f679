/** What the signal-controlled crossings share: their lamps, and the vehicles' green with its end. */
import type { Finding } from '../../findings/finding.ts';
import type { CrossingHead, FigureLamps, VehicleLamps } from '../../layout/kinds/road-heads.ts';
import { toMs } from '../../layout/scalars.ts';
import type { TimeRule } from '../../practice/practice.ts';
import type { Condition } from '../../table/model.ts';
import { duplicateIds } from '../names.ts';
import { type CommonCycle, holdable } from '../site.ts';
import { notUsed } from './lamp-parts.ts';
import {
  GREEN,
  type LampOwner,
  lampsOf,
  missingLamps,
  pairs,
  RED,
  type RoadLamp,
  roadLamps,
  type Show,
} from './road-lamps.ts';
import type { RoadProgram } from './road-program.ts';

export interface AnyCrossing {
  readonly name: string;
  readonly vehicles?: VehicleLamps | undefined;
  readonly pedestrians?: FigureLamps | undefined;
  readonly heads?: readonly CrossingHead[] | undefined;
  readonly buttons?: readonly string[] | undefined;
  readonly group?: string | undefined;
  readonly offset?: number | undefined;
  readonly startDelay?: number | undefined;
  readonly vehicleGreen?: number | undefined;
}

export const VEHICLES_GO: Show = { vehicles: GREEN, pedestrians: RED };

const PARTS = ['red', 'amber', 'green'] as const;

export function crossingLamps(site: AnyCrossing, path: string): { lamps: RoadLamp[]; findings: Finding[] } {
  const groupOf = (kind: CrossingHead['kind']): string => (kind === 'vehicle' ? 'vehicles' : 'pedestrians');
  const shared: LampOwner[] = [
    { name: 'Vehicles', group: 'vehicles', lamps: site.vehicles, path: `${path}.vehicles` },
    { name: 'Pedestrians', group: 'pedestrians', lamps: site.pedestrians, path: `${path}.pedestrians` },
  ];
  const own = (site.heads ?? []).map(
    ({ name, kind, lamps }, index): LampOwner => ({
      name,
      group: groupOf(kind),
      lamps,
      path: `${path}.heads[${index}].lamps`,
    }),
  );
  const lamps = roadLamps([...shared, ...own], PARTS);
  const findings = duplicateIds(site.heads ?? [], `${path}.heads`, 'head');
  site.heads?.forEach((head, index) => {
    if (head.kind !== 'pedestrian' || head.lamps?.amber === undefined) return;
    findings.push(notUsed(`${path}.heads[${index}].lamps.amber`, 'amber', 'Pedestrian heads have no amber'));
  });
  if (lamps.length === 0) return { lamps, findings };
  const wanted = (group: string, part: string, words: string) => ({ group, part, words, path: `${path}.${group}` });
  findings.push(
    ...missingLamps(site, lamps, [
      wanted('vehicles', 'red', "the vehicles' red"),
      wanted('vehicles', 'amber', "the vehicles' amber"),
      wanted('vehicles', 'green', "the vehicles' green"),
      wanted('pedestrians', 'red', 'the red figure'),
      wanted('pedestrians', 'green', 'the green figure'),
    ]),
  );
  return { lamps, findings };
}

/** Pairs of a green figure and a lamp of the vehicles. */
export function againstFigures(lamps: readonly RoadLamp[], parts: readonly string[]): [number, number][] {
  const figures = lampsOf(lamps, 'pedestrians', 'green');
  return parts.flatMap((part) => pairs(lampsOf(lamps, 'vehicles', part), figures));
}

/**
 * The vehicles' green as first rows: until a button is pressed, or for its time where there is none. On a
 * common cycle it ends at the site's point of the cycle, with a demand or, without buttons, each time.
 */
export function vehiclesGreen(
  writer: RoadProgram,
  site: AnyCrossing,
  rule: TimeRule,
  buttons: readonly number[],
  common: CommonCycle | null,
): void {
  const min = writer.dial('vehicle-green', rule, site.vehicleGreen, 'vehicleGreen');
  const label = 'Vehicles green';
  if (common !== null) {
    const value = toMs(site.offset ?? 0);
    const limits = { min: 0, max: holdable(Math.max(common.greatest, value)) };
    const offset = writer.offset({ id: 'offset', name: 'Offset in the common cycle', ...limits, value });
    writer.mark('vehicles-green');
    writer.interval(label, { op: 'sync', min, offset }, VEHICLES_GO);
    if (buttons.length > 0) writer.jump('Nobody waits', { kind: 'noDemand', inputs: buttons }, 'vehicles-green');
  } else if (buttons.length > 0) {
    const when: Condition = { kind: 'demand', inputs: buttons };
    writer.interval(label, { op: 'until', min, when }, VEHICLES_GO);
  } else {
    writer.interval(label, { op: 'after', dial: min }, VEHICLES_GO);
  }
}
