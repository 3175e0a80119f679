import { otherRows } from '../tuning/next-green.ts';
import { command } from './command.ts';
import { isReady, siteCall } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const holdNext = command({
  id: 'hold-next',
  label: 'Hold next green',
  hint: 'Waits until another green comes at the site at hand, then holds it. Ends by itself when the app falls silent.',
  shortcut: 'Shift+H',
  menu: 'Site',
  words: ['wait for green', 'stop at the next', 'arm', 'freeze later'],
  when: isReady,
  why: notRunning,
  name: (model) => (isArmed(model) ? 'Do not hold' : 'Hold next green'),
  checked: (model) => isArmed(model),
  run: (model) =>
    siteCall(model, (board, number) => {
      const site = model.siteAtHand.value;
      const rows = site && !isArmed(model) ? otherRows(site, board.rows.value[number]?.row ?? null) : [];
      return model.ask('holdAt', { board: board.id, site: number, rows });
    }),
});

function isArmed({ siteAtHand, board }: Parameters<typeof isReady>[0]): boolean {
  const site = siteAtHand.value;
  return site !== null && board(site.board).state.value.arms.some((arm) => arm.site === site.number);
}
