/** Checks of pedestrian phases. */
import type { Finding } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { Junction } from '../../layout/sites.ts';
import { missing } from '../../practice/missing.ts';
import type { Practice } from '../../practice/practice.ts';

/** Clearances where there are none, figures without one, and figures that the practice does not know. */
export function checkOnFoot(site: Junction, path: string, practice: Practice): Finding[] {
  const first = site.phases.findIndex((phase) => phase.kind === 'pedestrian');
  const lacking = missing(practice, 'pedestrian');
  const findings = site.phases.flatMap((phase, index) => {
    if (phase.kind === 'pedestrian') return [];
    const place = `${path}.phases[${index}]`;
    const heads = (site.heads ?? []).filter((head) => head.phase === phase.id);
    const figures = heads.length > 0 && heads.every((head) => head.kind === 'pedestrian');
    return [
      ...(figures ? [noClearance(phase.name, place)] : []),
      ...(phase.clearance === undefined ? [] : [unusedClearance(phase.name, `${place}.clearance`)]),
    ];
  });
  if (first < 0 || lacking === null) return findings;
  return [
    ...findings,
    warning('not-in-practice', `${path}.phases[${first}]`, {
      what: `Pedestrian signals at junctions are not part of the practice "${practice.name}".`,
      why: `A visitor from there would wonder (${lacking.source}).`,
      cure: 'Leave them if you like them so, or choose another practice.',
    }),
  ];
}

function noClearance(name: string, path: string): Finding {
  return warning('figures-without-clearance', path, {
    what: `All heads of ${name} are for people on foot, and it is a phase of vehicles.`,
    why: 'It gets no clearance, so traffic may start while people are still on the road.',
    cure: 'Make it a pedestrian phase.',
  });
}

function unusedClearance(name: string, path: string): Finding {
  return warning('not-used', path, {
    what: `The clearance of ${name} is not used.`,
    why: 'Only people on foot have one; vehicles have amber.',
    cure: 'Take it out, or make it a pedestrian phase.',
  });
}
