/** Railway signals, street lamps, vehicles and other lamps that belong to no road. */
import type { Layout } from '../../shared/layout/schema.ts';
import type { CompiledSite } from '../../shared/signals/compile.ts';
import type { PlanPlace } from './ground.ts';
import type { HeadMark } from './marks.ts';
import { BOARD, boardLength, LAMPS_APART, STEM } from './shapes.ts';
import { type Point, plus, towards } from './vectors.ts';

export function lampMark(site: Layout['sites'][number], names: CompiledSite, place: PlanPlace, r: number): HeadMark {
  const lamps = names.lamps.map(({ index, colour }) => ({ index, colour }));
  const mark = { name: site.name, at: place, turn: place.turn, lamps };
  switch (site.kind) {
    case 'colour-light': {
      // Upright on the plan, as one sees it from the train; the middle of the symbol is its place.
      const up = plus({ x: 0, y: 0 }, towards(place.turn), ((boardLength(lamps.length) + STEM) * r) / 2);
      return { ...mark, is: 'head', at: plus(place, up), turn: (place.turn + 180) % 360 };
    }
    case 'street-lamps':
      return { ...mark, is: 'street-lamps' };
    case 'indicators':
      return { ...mark, is: 'vehicle', spots: onSides(site.lamps.map(({ side }) => side)) };
    case 'beacons':
      return {
        ...mark,
        is: 'vehicle',
        spots: onSides(site.lamps.map((_, index) => (index % 2 === 0 ? 'left' : 'right'))),
      };
    default:
      return { ...mark, is: 'group' };
  }
}

/** Lamps on the left and right edge of a vehicle, from its front on. */
function onSides(sides: readonly ('left' | 'right')[]): Point[] {
  const half = LAMPS_APART / 2;
  const rows = Math.max(...(['left', 'right'] as const).map((side) => sides.filter((it) => it === side).length));
  return sides.map((side, index) => {
    const row = sides.slice(0, index).filter((it) => it === side).length;
    return { x: side === 'left' ? -half : half, y: (row - (rows - 1) / 2) * 2 * BOARD };
  });
}
