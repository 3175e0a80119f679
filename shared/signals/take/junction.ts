/** Times put into a junction: greens are fields; what lies between them is made of intergreens, which follow. */
import type { Junction } from '../../layout/sites.ts';
import { type Times, toSeconds } from './fields.ts';

/** How much longer each part of a change becomes, seconds. */
interface Longer {
  readonly amber: number;
  readonly redWithAmber: number;
  /** By the stage that the change leads to; `null` for all. */
  allRed(stage: string): number;
  /** By the phase of people on foot. */
  clearance(phase: string): number;
}

/** `before` and `times`: ms by dial id, as planned and as wanted; a dial that is missing stays. */
export function withJunctionTimes(site: Junction, before: Times, times: Times): Junction {
  const wanted = (id: string): number | undefined => {
    const ms = times.get(id);
    return ms === undefined ? undefined : toSeconds(ms);
  };
  const longer = longerBy(before, times);
  const amber = wanted('amber');
  const redWithAmber = wanted('red-with-amber');
  const allRed = wanted('all-red');
  const offset = wanted('offset');
  const gap = wanted('gap');
  const intergreens = site.intergreens && withIntergreens(site, longer);
  return {
    ...site,
    phases: site.phases.map((phase) => {
      const clearance =
        wanted(`clearance-${phase.id}`) ?? (phase.kind === 'pedestrian' ? wanted('clearance') : undefined);
      return clearance === undefined ? phase : { ...phase, clearance };
    }),
    stages: site.stages.map((stage) => {
      const green = wanted(`green-${stage.id}`);
      const { extend } = stage;
      const maximum = wanted(`maximum-${stage.id}`);
      const ownGap = wanted(`gap-${stage.id}`) ?? (extend?.gap === undefined ? undefined : gap);
      const extended = extend && {
        ...extend,
        ...(maximum === undefined ? {} : { maximum }),
        ...(ownGap === undefined ? {} : { gap: ownGap }),
      };
      return { ...stage, ...(green === undefined ? {} : { green }), ...(extended ? { extend: extended } : {}) };
    }),
    ...(amber === undefined ? {} : { amber }),
    ...(redWithAmber === undefined ? {} : { redWithAmber }),
    // Where every pair has an intergreen of its own, the usual all-red times nothing.
    ...(allRed === undefined || hasAllPairs(site) ? {} : { allRed }),
    ...(intergreens === undefined ? {} : { intergreens }),
    ...(offset === undefined ? {} : { offset }),
    ...(gap === undefined ? {} : { gap }),
  };
}

function longerBy(before: Times, times: Times): Longer {
  const by = (id: string): number => {
    const [was, now] = [before.get(id), times.get(id)];
    return was === undefined || now === undefined ? 0 : toSeconds(now - was);
  };
  return {
    amber: by('amber'),
    redWithAmber: by('red-with-amber'),
    allRed: (stage) => by('all-red') + by(`all-red-to-${stage}`),
    clearance: (phase) => by(`clearance-${phase}`) || by('clearance'),
  };
}

function withIntergreens(site: Junction, longer: Longer): Junction['intergreens'] {
  const phase = (id: string) => site.phases.find((it) => it.id === id);
  return Object.fromEntries(
    Object.entries(site.intergreens ?? {}).map(([from, row]) => [
      from,
      Object.fromEntries(
        Object.entries(row).map(([to, seconds]) => {
          const stage = site.stages.find((it) => it.phases.includes(to) && !it.phases.includes(from));
          const onFoot = phase(from)?.kind === 'pedestrian';
          const end = onFoot ? longer.clearance(from) : longer.amber;
          const begin = phase(to)?.kind === 'pedestrian' ? 0 : longer.redWithAmber;
          return [to, Math.round((seconds + end + longer.allRed(stage?.id ?? '') + begin) * 100) / 100];
        }),
      ),
    ]),
  );
}

/** Each phase has an intergreen to each other one that it shares no stage with. */
function hasAllPairs(site: Junction): boolean {
  const together = (one: string, other: string): boolean =>
    site.stages.some(({ phases }) => phases.includes(one) && phases.includes(other));
  return site.phases.every(({ id: from }) =>
    site.phases.every(
      ({ id: to }) => from === to || together(from, to) || site.intergreens?.[from]?.[to] !== undefined,
    ),
  );
}
