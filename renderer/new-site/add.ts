/** A new site comes into the open layout, or findings say what is in the way. */
import type { Finding } from '../../shared/findings/finding.ts';
import { takeLargerBoard } from '../../shared/layout/new-site/larger-board.ts';
import type { Offer } from '../../shared/layout/new-site/offers.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Model } from '../model/model.ts';
import { wishFor } from './rules.ts';

/** Findings; none when the site is there, and at hand. Null: the host refused, which is shown. */
export async function addSite(
  model: Model,
  offer: Offer,
  name: string,
  board: string,
): Promise<readonly Finding[] | null> {
  const { layout } = model.open.value;
  if (!layout) return null;
  const added = offer.add(layout, wishFor(layout, name, board));
  if ('findings' in added) return added.findings;
  const site = added.layout.sites.find(({ id }) => id === added.siteId);
  const what = `Added ${site?.name ?? name} (${offer.name.toLowerCase()}).`;
  if (!(await model.change(writeLayout(added.layout), what))) return null;
  model.choose(added.siteId);
  return [];
}

/** The board gets the larger chip, with everything that it has on its pins. */
export async function takeLarger(model: Model, board: string): Promise<void> {
  const { layout } = model.open.value;
  if (!layout) return;
  const what = `Took a board with an ATmega2560 for ${model.boardName(board)}.`;
  await model.change(writeLayout(takeLargerBoard(layout, board)), what);
}

/** The first board on which the offer fits, else the first of all. */
export function boardFor(model: Model, offer: Offer): string {
  const { layout } = model.open.value;
  if (!layout) return '';
  const fits = layout.boards.find(({ id }) => 'siteId' in offer.add(layout, wishFor(layout, offer.name, id)));
  return (fits ?? layout.boards[0])?.id ?? '';
}
