/** Edits of the street itself, as the plan makes them while it is arranged. */
import { resizeBaseboard } from '../../../shared/layout/plan-edit/baseboard.ts';
import {
  addPoint,
  addRoad,
  joinSites,
  movePoint,
  nameRoad,
  takePoint,
  takeRoadAway,
  widenRoad,
} from '../../../shared/layout/plan-edit/roads.ts';
import { standSite } from '../../../shared/layout/plan-edit/stand.ts';
import { layPicture, takePicture } from '../../../shared/layout/plan-edit/underlay.ts';
import type { Layout } from '../../../shared/layout/schema.ts';
import type { Edited } from '../../../shared/layout/wiring/edit.ts';
import { writeLayout } from '../../../shared/layout/write.ts';
import { type Dice, pick } from '../../fixtures/dice.ts';
import { moveSite } from '../../fixtures/move-site.ts';
import type { Move } from './moves.ts';

const spot = (dice: Dice) => ({ x: dice.int(0, 1500), y: dice.int(0, 1100) });
const aSite = (dice: Dice, { sites }: Layout): string => pick(dice, sites).id;

const EDITS: Readonly<Record<string, (dice: Dice, layout: Layout) => Edited>> = {
  move: (dice, layout) => ({
    layout: moveSite(layout, aSite(dice, layout), { x: dice.int(-200, 200), y: dice.int(-200, 200) }),
    said: 'Moved a site.',
  }),
  turn: (dice, layout) => ({
    layout: standSite(layout, aSite(dice, layout), { turn: 15 * dice.int(0, 23) }),
    said: 'Turned a site.',
  }),
  'draw a road': (dice, layout) => addRoad(layout, [spot(dice), spot(dice), spot(dice)]),
  'join sites': (dice, layout) => joinSites(layout, aSite(dice, layout), aSite(dice, layout)),
  'name a road': (dice, layout) => nameRoad(layout, aRoad(dice, layout), `Lane ${dice.int(1, 99)}`),
  'widen a road': (dice, layout) => widenRoad(layout, aRoad(dice, layout), dice.int(20, 200)),
  'move a point': (dice, layout) => movePoint(layout, aRoad(dice, layout), dice.int(0, 2), spot(dice)),
  'add a point': (dice, layout) => addPoint(layout, aRoad(dice, layout), 0, spot(dice)),
  'take a point out': (dice, layout) => takePoint(layout, aRoad(dice, layout), dice.int(0, 2)),
  'take a road away': (dice, layout) => takeRoadAway(layout, aRoad(dice, layout)),
  baseboard: (dice, layout) => resizeBaseboard(layout, { width: dice.int(600, 3000), depth: dice.int(600, 2000) }),
  'lay a picture': (dice, layout) =>
    layPicture(layout, { id: `${dice.int(0, 9)}`.repeat(64), name: 'track.png', width: 800, height: 600 }),
  'take the picture': (_, layout) => takePicture(layout),
};

function aRoad(dice: Dice, { roads = [] }: Layout): string {
  return roads.length > 0 ? pick(dice, roads).id : 'none';
}

export const PLAN_MOVES: Readonly<Record<string, Move>> = Object.fromEntries(
  Object.entries(EDITS).map(([name, edit]): [string, Move] => [
    name,
    async (dice, { model }, layout) => {
      const done = edit(dice, layout);
      if ('layout' in done) await model.change(writeLayout(done.layout), done.said);
    },
  ]),
);
