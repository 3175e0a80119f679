/** Edits of the wiring, as the wiring sheet makes them. */
import { Wiring } from '../../../renderer/model/wiring.ts';
import { layOut } from '../../../renderer/wiring/what-if.ts';
import type { Layout } from '../../../shared/layout/schema.ts';
import { addChain } from '../../../shared/layout/wiring/chain.ts';
import {
  likeThis,
  setBoardPower,
  setCircuit,
  setPolarity,
  setSeries,
  setSource,
  setUsual,
  wireColour,
} from '../../../shared/layout/wiring/details.ts';
import type { Edited } from '../../../shared/layout/wiring/edit.ts';
import { lampPlaces } from '../../../shared/layout/wiring/lamps.ts';
import { lampOutputs } from '../../../shared/layout/wiring/outputs.ts';
import { assign, permute } from '../../../shared/layout/wiring/permute.ts';
import { shareHeads } from '../../../shared/layout/wiring/share.ts';
import { type Dice, pick, shuffled } from '../../fixtures/dice.ts';
import type { Move } from './moves.ts';

type Pick = (dice: Dice, layout: Layout, board: string) => Edited | null;

const aLamp = (dice: Dice, layout: Layout, board: string): string => pick(dice, lampPlaces(layout, board)).path;

const EDITS: Readonly<Record<string, Pick>> = {
  'another output': (dice, layout, board) =>
    assign(layout, aLamp(dice, layout, board), pick(dice, lampOutputs(layout, board)).output),
  'permute outputs': (dice, layout, board) => {
    const lamps = lampPlaces(layout, board).filter(({ output }) => output !== null);
    const outputs = shuffled(
      dice,
      lamps.map(({ output }) => output ?? 0),
    );
    return permute(layout, board, new Map(lamps.map(({ path }, at) => [path, outputs[at] ?? 0])));
  },
  'share heads': (dice, layout) => shareHeads(layout, pick(dice, layout.sites).id),
  chain: (dice, layout, board) => addChain(layout, board, { sites: [pick(dice, layout.sites).id] }),
  wire: (dice, layout, board) =>
    wireColour(layout, aLamp(dice, layout, board), pick(dice, ['violet', 'grey', 'white'] as const)),
  resistor: (dice, layout, board) =>
    setCircuit(layout, aLamp(dice, layout, board), { resistor: pick(dice, [150, 330, 470, 1000]) }),
  polarity: (dice, layout, board) => setPolarity(layout, aLamp(dice, layout, board), dice.int(0, 1) === 1),
  source: (dice, layout, board) =>
    setSource(layout, aLamp(dice, layout, board), pick(dice, ['led', 'smallFilament'] as const)),
  'like this': (dice, layout, board) =>
    likeThis(layout, aLamp(dice, layout, board), [aLamp(dice, layout, board), aLamp(dice, layout, board)]),
  'board power': (dice, layout, board) =>
    setBoardPower(layout, board, dice.int(0, 1) ? { from: 'external', volts: 5 } : { from: 'usb' }),
  series: (dice, layout) => setSeries(layout, pick(dice, ['E12', 'E24'] as const)),
  usual: (dice, layout) =>
    setUsual(layout, pick(dice, ['red', 'amber', 'green']), { forward: undefined, milliamps: dice.int(2, 15) }),
};

const moveOf =
  (edit: Pick): Move =>
  async (dice, { model }, layout) => {
    const board = pick(dice, layout.boards).id;
    const done = lampPlaces(layout, board).length > 0 ? edit(dice, layout, board) : null;
    if (done) await new Wiring(model).apply(done);
  };

export const WIRING_MOVES: Readonly<Record<string, Move>> = {
  ...Object.fromEntries(Object.entries(EDITS).map(([name, edit]) => [name, moveOf(edit)])),
  'lay out': async (_, { model }) => {
    const wiring = new Wiring(model);
    const wired = wiring.wired.value;
    const { done } = wired ? layOut(wired) : { done: null };
    if (done) await wiring.apply(done);
  },
};
