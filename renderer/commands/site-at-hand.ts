/** What commands on the site or board at hand have in common. */
import type { BoardModel } from '../model/board.ts';
import type { Model } from '../model/model.ts';
import type { About } from './command.ts';

/** The board that is meant: the button's own, else the one at hand. */
export function meant(model: Model, about?: About): BoardModel | null {
  return about?.board ?? model.boardAtHand.value;
}

/** The board that is meant runs this layout and listens. */
export function isReady(model: Model, about?: About): boolean {
  return meant(model, about)?.runsLayout.value === true;
}

export async function boardCall(
  model: Model,
  call: (board: BoardModel) => Promise<unknown>,
  about?: About,
): Promise<void> {
  const board = meant(model, about);
  if (board) await call(board);
}

export async function siteCall(
  model: Model,
  call: (board: BoardModel, site: number) => Promise<unknown>,
): Promise<void> {
  const site = model.siteAtHand.value;
  if (site) await call(model.board(site.board), site.number);
}

/** Takes a site further on in hand, round and round. */
export function chooseBy(model: Model, steps: number): void {
  const { sites } = model.open.value;
  const site = model.siteAtHand.value;
  const at = site ? sites.indexOf(site) : 0;
  const next = sites[(at + steps + sites.length) % sites.length];
  if (next) model.choose(next.id);
}
