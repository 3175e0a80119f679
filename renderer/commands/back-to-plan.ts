import { timesOf } from '../model/compare.ts';
import { backToPlan as backTo } from '../tuning/plan-times.ts';
import { command } from './command.ts';
import { isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const backToPlan = command({
  id: 'back-to-plan',
  label: 'All back to planned',
  hint: 'Runs the planned times of the board at hand again; the cycle goes on.',
  shortcut: null,
  menu: 'Site',
  words: ['reset times', 'as planned', 'original', 'undo all'],
  when: (model) => isReady(model) && unplanned(model).length > 0,
  why: (model) => notRunning(model) ?? 'The board runs the planned times.',
  run: (model) => backTo(model, unplanned(model)),
});

function unplanned(model: Parameters<typeof isReady>[0]) {
  return timesOf(model, model.boardAtHand.value?.id ?? null).filter(
    ({ running, planned }) => running !== null && running !== planned,
  );
}
