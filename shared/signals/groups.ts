/** Common cycles: sites that run in step on one board, or on several that a sync wire joins. */
import type { Finding } from '../findings/finding.ts';
import { error, note, warning } from '../findings/make.ts';
import type { Board, Lamp } from '../layout/outputs.ts';
import { toMs } from '../layout/scalars.ts';
import type { Layout, Site } from '../layout/schema.ts';
import type { Group as TableGroup } from '../table/model.ts';
import type { Inputs } from './inputs.ts';
import { seconds } from './names.ts';
import { checkSync } from './progression/sync.ts';
import { type CommonCycle, holdable, type SitePlan } from './site.ts';

/** Shortest cycle of practice: course text DCC3113, p. 121. Longest: common practice, no source. */
const LEAST_CYCLE = 25000;
const GREATEST_CYCLE = 240000;
/** By how much the clocks of two boards differ at most: resonators of 0.5 % each. Common practice, no source. */
const CLOCKS_DIFFER = 0.01;

type AddLamp = (lamp: Lamp, path: string, name: string) => number;

export class Groups {
  readonly findings: Finding[] = [];
  private readonly layout: Layout;
  private readonly list: readonly { readonly group: NonNullable<Layout['groups']>[number]; readonly path: string }[];

  constructor(layout: Layout, board: Board) {
    this.layout = layout;
    this.list = (layout.groups ?? []).flatMap((group, index) =>
      group.board === board.id ? [{ group, path: `groups[${index}]` }] : [],
    );
    for (const { group, path } of this.list) {
      const { value, min, max } = cycleOf(group);
      if (value < 1000 || value < min || value > max) this.findings.push(badCycle(path, value, min, max));
      this.findings.push(...checkSync(layout, layout.groups?.indexOf(group) ?? -1));
    }
  }

  number(site: Site): number | null {
    const index = this.list.findIndex(({ group }) => group.id === site.group);
    return index < 0 ? null : index;
  }

  commonCycle(site: Site): CommonCycle | null {
    const found = this.list[this.number(site) ?? -1];
    if (found === undefined) return null;
    const { value, max } = cycleOf(found.group);
    return { cycle: value, greatest: max };
  }

  /** What a site says of groups; `plan` is null where the site has errors of its own. */
  checkSite(site: Site, path: string, plan: SitePlan | null): Finding[] {
    if (site.group === undefined)
      return site.offset === undefined ? [] : [unused(`${path}.offset`, 'offset', 'no group')];
    const common = this.commonCycle(site);
    if (common === null) return [this.unknownGroup(site, site.group, `${path}.group`)];
    if (site.kind === 'zebra') return [unused(`${path}.group`, 'group', 'nothing that waits for a common cycle')];
    if (site.startDelay !== undefined)
      return [unused(`${path}.startDelay`, 'startDelay', 'a group, which sets its start')];
    if (plan?.cycle == null) return [];
    if (plan.cycle > common.cycle) return [cycleTooShort(site, plan.cycle, common.cycle, `${path}.group`)];
    const spare = common.cycle - plan.cycle;
    const follows = this.list[this.number(site) ?? -1]?.group.syncIn !== undefined;
    const wanted = follows ? spareOf(common.cycle) : 0;
    if (spare < wanted) return [noSpare(site, wanted - spare, `${path}.group`)];
    // A second more than what a follower must have is no news.
    if (spare <= wanted + (follows ? 1000 : 0)) return [];
    return [
      note('cycle-slack', `${path}.group`, {
        what: `${site.name} needs ${seconds(plan.cycle)} of the common cycle of ${seconds(common.cycle)}.`,
        why: `Its last stage lasts ${seconds(spare)} longer than its green.`,
        cure: 'Nothing need be done; to share the time out, lengthen the greens of its other stages.',
      }),
    ];
  }

  table(inputs: Inputs, addLamp: AddLamp): TableGroup[] {
    return this.list.map(({ group, path }) => ({
      name: group.name,
      cycle: { name: 'Cycle', ...cycleOf(group) },
      syncOut: group.syncOut === undefined ? null : addLamp(group.syncOut, `${path}.syncOut`, `${group.name}, sync`),
      syncIn: group.syncIn === undefined ? null : inputs.number(group.syncIn, `${path}.syncIn`),
    }));
  }

  private unknownGroup(site: Site, id: string, path: string): Finding {
    const elsewhere = this.layout.groups?.some((group) => group.id === id) ?? false;
    return error(elsewhere ? 'group-on-other-board' : 'unknown-group', path, {
      what: elsewhere ? `The group "${id}" is on another board than ${site.name}.` : `The layout has no group "${id}".`,
      why: 'A common cycle runs on one board; boards that share one have a group each.',
      cure: elsewhere
        ? 'Move the site, or give its board a group of the same name and join the two by a sync wire.'
        : 'Add it to the groups, or use the id of one that is there.',
    });
  }
}

/** What a site must leave of a cycle, ms, that its board takes from another one: its clock may be the slower. */
export function spareOf(cycle: number): number {
  return Math.ceil((cycle * CLOCKS_DIFFER) / 10) * 10;
}

export function planGroups(layout: Layout, board: Board): Groups {
  return new Groups(layout, board);
}

function cycleOf(group: NonNullable<Layout['groups']>[number]): { value: number; min: number; max: number } {
  const value = toMs(group.cycle);
  return {
    value,
    min: group.least === undefined ? Math.min(value, LEAST_CYCLE) : toMs(group.least),
    max: group.greatest === undefined ? holdable(Math.max(value, GREATEST_CYCLE)) : toMs(group.greatest),
  };
}

function badCycle(path: string, value: number, min: number, max: number): Finding {
  return error('time-outside-limits', `${path}.cycle`, {
    what: `The cycle is ${seconds(value)} with limits of ${seconds(min)} and ${seconds(max)}.`,
    why: 'A cycle lies between its limits and lasts at least 1 s.',
    cure: 'Change the cycle or its limits.',
  });
}

function cycleTooShort(site: Site, needed: number, cycle: number, path: string): Finding {
  return error('cycle-too-short', path, {
    what: `${site.name} needs ${seconds(needed)}, and the common cycle is ${seconds(cycle)}.`,
    why: 'It would miss every other cycle.',
    cure: 'Lengthen the cycle or shorten the greens.',
  });
}

function noSpare(site: Site, missing: number, path: string): Finding {
  return warning('cycle-without-spare', path, {
    what: `${site.name} fills the cycle that its board takes from another one.`,
    why: 'Where its clock is the slower one it is not ready when the beat comes, and misses every other cycle.',
    cure: `Shorten its last green by ${seconds(Math.ceil(missing / 1000) * 1000)}; it lasts until the beat anyway.`,
  });
}

function unused(path: string, what: string, because: string): Finding {
  return warning('not-used', path, {
    what: `"${what}" is not used here.`,
    why: `The site has ${because}.`,
    cure: 'Take it out.',
  });
}
