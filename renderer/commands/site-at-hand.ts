/** What commands on the site or board at hand have in common. */
import type { BoardModel } from '../model/board.ts';
import type { Model } from '../model/model.ts';

/** The board at hand runs this layout and listens. */
export function isReady({ boardAtHand }: Model): boolean {
  return boardAtHand.value?.runsLayout.value === true;
}

export async function boardCall(model: Model, call: (board: BoardModel) => Promise<unknown>): Promise<void> {
  const board = model.boardAtHand.value;
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
