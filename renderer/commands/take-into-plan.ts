import { differs, timesOf } from '../model/compare.ts';
import { takeIntoPlan } from '../tuning/plan-times.ts';
import { command } from './command.ts';
import { isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const takeTimesIntoPlan = command({
  id: 'take-into-plan',
  label: 'Take running times into the plan',
  hint: 'Writes the running times of the board at hand into the layout.',
  shortcut: 'Shift+K',
  menu: 'Site',
  words: ['adopt', 'save times in the file', 'copy to the layout', 'planned', 'write back'],
  when: (model) => isReady(model) && unplanned(model).length > 0,
  why: (model) => notRunning(model) ?? 'The board runs the planned times.',
  run: (model) => takeIntoPlan(model, unplanned(model)),
});

function unplanned(model: Parameters<typeof timesOf>[0] & Parameters<typeof isReady>[0]) {
  const board = model.boardAtHand.value?.id ?? null;
  return timesOf(model, board).filter((it) => differs(it) && it.running !== null && it.running !== it.planned);
}
