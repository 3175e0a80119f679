/** Put back, remembered for undo: every time that it changes can be had again. */
import type { BoardModel } from './board.ts';
import type { Model } from './model.ts';
import type { Change } from './nudges.ts';

export async function putBack(model: Model, board: BoardModel): Promise<void> {
  const { runningDials, keptDials } = board.state.value;
  const changes = (runningDials ?? []).flatMap((dials, site) =>
    dials.flatMap((from, dial): Change[] => {
      const to = keptDials?.[site]?.[dial];
      return to === undefined || to === from ? [] : [{ board: board.id, site, dial, from, to }];
    }),
  );
  await model.history.take(async () => {
    const outcome = await model.ask('putBack', { board: board.id });
    return outcome.ok ? model.nudges.stepOf(changes, `Put back on ${model.boardName(board.id)}.`) : null;
  });
}
