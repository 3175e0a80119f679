/** From a zebra crossing to a program: one row in which the beacons flash for ever. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { warning } from '../findings/make.ts';
import { toMs } from '../layout/scalars.ts';
import type { Zebra } from '../layout/sites.ts';
import type { Practice } from '../practice/practice.ts';
import { checkTime } from './checks.ts';
import { ruleDial } from './kinds/lamp-parts.ts';
import { duplicateIds } from './names.ts';
import type { Planned } from './site.ts';

export function planZebra(site: Zebra, path: string, practice: Practice): Planned {
  const rules = practice.zebra;
  const findings: Finding[] = [
    ...duplicateIds(site.beacons, `${path}.beacons`, 'beacon'),
    ...checkTime(site.on, rules.on, `${path}.on`),
    ...checkTime(site.off, rules.off, `${path}.off`),
  ];
  if (!rules.exists.value) findings.push(notThere(path, practice));
  if (hasErrors(findings)) return { plan: null, findings };
  const alternate = site.flash === 'alternate';
  const dials = [ruleDial('flash-on', rules.on, site.on), ruleDial('flash-off', rules.off, site.off)];
  const dark = site.beacons.map(() => 'dark' as const);
  const states = site.beacons.map((_, index) =>
    alternate && index % 2 === 1 ? ('alternate' as const) : ('flash' as const),
  );
  return {
    plan: {
      program: {
        name: `Zebra, ${site.beacons.length} beacons ${alternate ? 'in turn' : 'together'}`,
        lamps: site.beacons.map((_, index) => `beacon ${index + 1}`),
        dials: dials.map(({ id, min, max }) => ({ name: id, min, max })),
        inputs: [],
        flash: { on: 0, off: 1 },
        fault: dark,
        safe: dark,
        conflicts: [],
        // Waits for an input of an empty list, which never comes: the row has no end, only its flash has.
        rows: [{ op: 'until', min: 0, when: { kind: 'active', inputs: [] }, states }],
      },
      start: 0,
      offset: toMs(site.startDelay ?? 0),
      dials,
      lamps: site.beacons.map((beacon, index) => ({
        label: beacon.name ?? beacon.id,
        colour: beacon.colour ?? 'amber',
        output: beacon,
        path: `${path}.beacons[${index}]`,
      })),
      inputs: [],
      rows: [{ label: alternate ? 'Beacons flash in turn' : 'Beacons flash together' }],
      cycle: null,
    },
    findings,
  };
}

function notThere(path: string, practice: Practice): Finding {
  return warning('not-in-practice', path, {
    what: `Zebra crossings with beacons are not part of the practice "${practice.name}".`,
    why: `A visitor from there would wonder (${practice.zebra.exists.source}).`,
    cure: 'Leave it if you like it so, or choose another practice.',
  });
}
