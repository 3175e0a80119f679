/** Keep, remembered for undo: the board can keep again what it kept before, while what runs stays. */
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { BoardModel } from './board.ts';
import type { Model } from './model.ts';

/** `offer`: shows what the board kept before, where undo has no other way. */
export async function keepTimes(model: Model, board: BoardModel, offer: () => void): Promise<void> {
  await model.history.take(async () => {
    const before = board.state.value.keptCrc;
    const outcome = await model.ask('keep', { board: board.id });
    if (!outcome.ok) return null;
    const after = board.state.value.keptCrc;
    return {
      what: `Kept on ${model.boardName(board.id)}.`,
      undo: () => keepAgain(model, board, before, offer),
      redo: () => keepAgain(model, board, after, offer),
    };
  });
}

/**
 * True also where the table of before cannot be had this way: that is said, the list of all that was kept is offered,
 * and the next undo goes on to what was done before.
 */
async function keepAgain(model: Model, board: BoardModel, crc: string | null, offer: () => void): Promise<boolean> {
  if (crc !== null && crc === board.state.value.keptCrc) return true;
  if (crc !== null) {
    const outcome = await model.call('keepEarlier', { board: board.id, crc });
    if (outcome.ok) return true;
    model.trouble.value = { about: { board: board.id }, problem: outcome.problem };
    const isForGood = outcome.problem.code === 'keepOther' || outcome.problem.code === 'keepGone';
    if (isForGood) offer();
    return isForGood;
  }
  const problem = describeProblem('keptNothing', { board: model.boardName(board.id) });
  model.trouble.value = { about: { board: board.id }, problem };
  return true;
}
