/** A wave put into the layout: junctions on one common cycle, each with its offset. */
import type { Finding } from '../../findings/finding.ts';
import { note, warning } from '../../findings/make.ts';
import type { Group } from '../../layout/outputs.ts';
import type { Layout, Site } from '../../layout/schema.ts';
import type { Wave } from './search.ts';
import { ms, onRing, type Street } from './street.ts';

/**
 * A board that has no common cycle for these junctions gets one. The first
 * junction keeps its offset and the others follow it. Several boards get a
 * common cycle each, with one name; that they need a sync wire is told.
 */
export function applyWave(layout: Layout, street: Street, wave: Wave): { layout: Layout; findings: Finding[] } {
  const offsets = new Map(street.stops.map((stop, index) => [stop.id, wave.offsets[index] ?? 0]));
  const members = layout.sites.filter((site) => offsets.has(site.id));
  const boards = [...new Set(members.map((site) => site.board))];
  const groups = [...(layout.groups ?? [])];
  const groupOf = new Map(boards.map((board) => [board, chooseGroup(groups, members, board, street, boards.length)]));
  const base = layout.sites.find((site) => site.id === street.stops[0]?.id)?.offset ?? 0;
  const sites = layout.sites.map((site): Site => {
    const offset = offsets.get(site.id);
    if (offset === undefined || site.kind !== 'junction') return site;
    const { startDelay: _, ...rest } = site;
    const at = onRing(ms(base) + ms(offset), ms(street.cycle));
    return { ...rest, group: groupOf.get(site.board) ?? '', offset: (Math.round(at / 10) * 10) / 1000 };
  });
  const cycled = groups.map((group) =>
    [...groupOf.values()].includes(group.id) ? withCycle(group, street.cycle) : group,
  );
  const findings = [
    ...others(layout, [...groupOf.values()], offsets),
    ...(boards.length > 1 ? [severalBoards(layout, boards)] : []),
  ];
  return { layout: { ...layout, groups: cycled, sites }, findings };
}

/** Id of the board's group; made and added where there is none. */
function chooseGroup(groups: Group[], members: readonly Site[], board: string, street: Street, boards: number): string {
  const used = members.find(
    (site) => site.board === board && groups.some((group) => group.id === site.group && group.board === board),
  );
  if (used?.group !== undefined) return used.group;
  const wanted = boards > 1 ? `wave-${board}` : 'wave';
  let id = wanted.slice(0, 40);
  for (let number = 2; groups.some((group) => group.id === id); number++) id = `${wanted.slice(0, 36)}-${number}`;
  groups.push({ id, name: street.name, board, cycle: street.cycle });
  return id;
}

/** Limits that the cycle is outside of would make the layout wrong. */
function withCycle(group: Group, cycle: number): Group {
  const { least, greatest, ...rest } = group;
  return {
    ...rest,
    cycle,
    ...(least === undefined ? {} : { least: Math.min(least, cycle) }),
    ...(greatest === undefined ? {} : { greatest: Math.max(greatest, cycle) }),
  };
}

function others(layout: Layout, groups: readonly string[], offsets: ReadonlyMap<string, number>): Finding[] {
  return layout.sites.flatMap((site, index) => {
    if (site.group === undefined || !groups.includes(site.group) || offsets.has(site.id)) return [];
    return [
      note('other-on-cycle', `sites[${index}].group`, {
        what: `${site.name} is on the same common cycle and not part of the wave.`,
        why: 'It gets the cycle of the wave and keeps its own offset.',
        cure: 'Nothing need be done; to run it apart, take it out of the common cycle.',
      }),
    ];
  });
}

function severalBoards(layout: Layout, boards: readonly string[]): Finding {
  const names = boards.map((id) => layout.boards.find((board) => board.id === id)?.name ?? id);
  return warning('wave-over-boards', 'groups', {
    what: `The junctions are on several boards: ${names.join(', ')}.`,
    why: 'The clocks of boards drift apart, and the wave with them, unless a wire keeps them in step.',
    cure: 'Give the common cycle of one board a sync output and those of the others a sync input, and join them by a wire.',
  });
}
