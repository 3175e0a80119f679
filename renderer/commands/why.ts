/** Why a command cannot be done now, for those reasons that many share. */
import { boardWords } from '../board/words.ts';
import type { Model } from '../model/model.ts';
import type { About } from './command.ts';
import { meant } from './site-at-hand.ts';

/** No board of the layout answers. */
export function notConnected(model: Model, about?: About): string | null {
  const board = meant(model, about);
  if (!board) return 'The layout has no board yet.';
  const name = model.boardName(board.id);
  const state = board.state.value;
  if (state.link === 'off') return `${name} is not connected. Choose its port in Board and port.`;
  if (state.link !== 'ready' || state.quiet || state.task) return `${name}: ${boardWords(state)}.`;
  return null;
}

/** The board does not run this layout. */
export function notRunning(model: Model, about?: About): string | null {
  const away = notConnected(model, about);
  if (away) return away;
  const board = meant(model, about);
  if (!board || board.runsLayout.value) return null;
  const name = model.boardName(board.id);
  const { running } = board.state.value;
  if (running === 'other') return `${name} runs another layout. Send this one first.`;
  return running === 'none' ? `${name} runs nothing yet. Send the layout first.` : `${name} has not said what it runs.`;
}

export function noLayout({ open }: Model): string | null {
  return open.value.layout === null ? 'No layout is open.' : null;
}

export function notVirtual(model: Model): string | null {
  const board = model.boardAtHand.value;
  return board ? `${model.boardName(board.id)} is not a virtual board.` : 'The layout has no board yet.';
}
