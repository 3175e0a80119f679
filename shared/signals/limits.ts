/** What a program and a board can hold in number; bytes are counted when the image is made. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { Board } from '../layout/outputs.ts';
import { CAPACITY, PROGRAM_LIMITS } from '../table/format.ts';
import type { BoardTable } from '../table/model.ts';
import type { SitePlan } from './site.ts';

export function checkProgramLimits(name: string, path: string, { program }: SitePlan): Finding[] {
  return (['lamps', 'dials', 'inputs', 'rows', 'conflicts'] as const).flatMap((thing) => {
    const [found, most] = [program[thing].length, PROGRAM_LIMITS[thing]];
    return found <= most ? [] : [tooMany(thing, path, name, found, most, 'Split it into two sites.')];
  });
}

export function checkTableLimits(board: Board, path: string, table: BoardTable): Finding[] {
  const capacity = CAPACITY[board.chip];
  const chips = table.chain?.chips ?? 0;
  const counts = (['lamps', 'sites', 'inputs', 'groups', 'programs'] as const).map(
    (thing) => [thing, table[thing].length, capacity[thing]] as const,
  );
  return [...counts, ['chips', chips, capacity.chips] as const].flatMap(([thing, found, most]) =>
    found <= most
      ? []
      : [tooMany(thing, path, board.name, found, most, 'Move some to another board, or use a larger chip.')],
  );
}

function tooMany(thing: string, path: string, name: string, found: number, most: number, cure: string): Finding {
  const words = thing === 'conflicts' ? 'pairs of conflicting lamps' : thing;
  return error(`too-many-${thing}`, path, {
    what: `${name} has ${found} ${words}; at most ${most} fit.`,
    why: 'The board cannot hold more.',
    cure,
  });
}
