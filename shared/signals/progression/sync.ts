/**
 * Common cycles over several boards. Boards drift apart, so one gives the beat
 * by a wire from its sync output to the sync inputs of the others. Groups of one
 * name on different boards are meant to be one cycle.
 */
import type { Finding } from '../../findings/finding.ts';
import { note, warning } from '../../findings/make.ts';
import type { Group } from '../../layout/outputs.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Layout } from '../../layout/schema.ts';
import { SYNC_PULSE_MS } from '../../table/format.ts';
import { seconds } from '../names.ts';

/** What is wrong with the wire of one group; its place is `groups[index]`. */
export function checkSync(layout: Layout, index: number): Finding[] {
  const groups = layout.groups ?? [];
  const group = groups[index];
  if (group === undefined) return [];
  const path = `groups[${index}]`;
  const family = groups.filter((it) => nameOf(it) === nameOf(group));
  const isOverBoards = family.some((it) => it.board !== group.board);
  const leader = leaderOf(layout, group, family);
  const first = leader ?? family[0] ?? group;
  const findings: Finding[] = [];
  if (isOverBoards && group === first && group.syncOut === undefined) findings.push(noOutput(layout, group, path));
  if (isOverBoards && group !== first && group.syncIn === undefined) {
    findings.push(noInput(layout, group, first, path));
  }
  if (first !== group && (isOverBoards || group.syncIn !== undefined) && first.cycle !== group.cycle) {
    findings.push(otherCycle(layout, group, first, path));
  }
  if (group.syncIn !== undefined) findings.push(...checkInput(layout, group, leader, path));
  return findings;
}

function nameOf(group: Group): string {
  return group.name.trim().toLowerCase();
}

/** A group that gives a beat and takes none: of the same name, or the only one of the layout. */
function leaderOf(layout: Layout, group: Group, family: readonly Group[]): Group | null {
  const leads = (it: Group): boolean => it.syncOut !== undefined && it.syncIn === undefined;
  const own = family.find(leads);
  if (own !== undefined) return own;
  if (group.syncIn === undefined) return null;
  const all = (layout.groups ?? []).filter((it) => leads(it) && it.board !== group.board);
  return all.length === 1 ? (all[0] ?? null) : null;
}

function checkInput(layout: Layout, group: Group, leader: Group | null, path: string): Finding[] {
  const index = layout.inputs?.findIndex((input) => input.id === group.syncIn) ?? -1;
  const input = layout.inputs?.[index];
  // What is no input at all is told elsewhere.
  if (input === undefined) return [];
  const findings: Finding[] = [];
  if (leader === null || leader === group) findings.push(noLeader(group, path));
  else if ((input.activeLow ?? true) !== (leader.syncOut?.activeLow ?? false)) {
    findings.push(otherLevel(input.name, input.activeLow ?? true, `inputs[${index}].activeLow`));
  }
  if (toMs(input.debounce ?? 0) >= SYNC_PULSE_MS) findings.push(slowInput(input.name, `inputs[${index}].debounce`));
  return findings;
}

function boardName(layout: Layout, group: Group): string {
  return layout.boards.find((board) => board.id === group.board)?.name ?? group.board;
}

function noOutput(layout: Layout, group: Group, path: string): Finding {
  return warning('sync-wire-missing', path, {
    what: `The cycle "${group.name}" runs on several boards, and ${boardName(layout, group)} gives the others no beat.`,
    why: 'The clocks of boards drift apart; after an evening the greens no longer fit together.',
    cure: 'Give it a sync output on a free pin, and run a wire (and ground) to a sync input of each other board.',
  });
}

function noInput(layout: Layout, group: Group, first: Group, path: string): Finding {
  return warning('sync-wire-missing', path, {
    what: `The cycle "${group.name}" is on ${boardName(layout, first)} too, and ${boardName(layout, group)} takes no beat from it.`,
    why: 'The clocks of boards drift apart; after an evening the greens no longer fit together.',
    cure: `Give it a sync input, and run a wire (and ground) to it from ${boardName(layout, first)}; or give the cycle another name if it is meant to run alone.`,
  });
}

function otherCycle(layout: Layout, group: Group, first: Group, path: string): Finding {
  return warning('sync-cycle-differs', `${path}.cycle`, {
    what: `The cycle is ${seconds(toMs(group.cycle))} here and ${seconds(toMs(first.cycle))} on ${boardName(layout, first)}.`,
    why: 'Each beat would cut or stretch a cycle, and greens would be missed.',
    cure: 'Make the two cycles equal.',
  });
}

function noLeader(group: Group, path: string): Finding {
  return note('sync-without-leader', `${path}.syncIn`, {
    what: `Nothing in the layout gives the beat that "${group.name}" listens for.`,
    why: 'Until a beat comes it runs by its own clock.',
    cure: 'Give a group on another board a sync output, or leave it if the beat comes from elsewhere.',
  });
}

function otherLevel(name: string, activeLow: boolean, path: string): Finding {
  return warning('sync-level', path, {
    what: `${name} is active ${activeLow ? 'low' : 'high'}, and the beat is ${activeLow ? 'high' : 'low'}.`,
    why: `The cycle would begin with the end of the beat, ${seconds(SYNC_PULSE_MS)} late.`,
    cure: `Set activeLow of the input to ${!activeLow}${activeLow ? ', and take its pull-up off' : ''}.`,
  });
}

function slowInput(name: string, path: string): Finding {
  return warning('sync-debounce', path, {
    what: `${name} is debounced for as long as the beat lasts, ${seconds(SYNC_PULSE_MS)}.`,
    why: 'The beat would be over before it counts.',
    cure: 'Write a shorter time, such as 0.01: a wire does not bounce.',
  });
}
