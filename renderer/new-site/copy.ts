/** Copies and templates of sites, as a person at the panel makes them. */
import type { Finding } from '../../shared/findings/finding.ts';
import { copySite, pasteSite } from '../../shared/layout/copy-site/copy.ts';
import { parcelOf, readParcel, writeParcel } from '../../shared/layout/copy-site/parcel.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Model } from '../model/model.ts';

/** The site at hand again, beside itself, or on the first board with room for it. Findings say what is in the way. */
export async function copyAtHand(model: Model): Promise<readonly Finding[]> {
  const { layout } = model.open.value;
  const site = model.siteAtHand.value;
  if (!layout || !site) return [];
  const boards = [site.board, ...layout.boards.map(({ id }) => id).filter((id) => id !== site.board)];
  const tries = boards.map((board) => copySite(layout, site.id, { board }));
  const copied = tries.find((it) => 'siteId' in it) ?? tries[0];
  if (!copied) return [];
  if ('findings' in copied) return copied.findings;
  const copy = copied.layout.sites.find(({ id }) => id === copied.siteId);
  const where = copy && copy.board !== site.board ? ` on ${model.boardName(copy.board)}` : '';
  const what = `Copied ${site.names.name} as ${copy?.name ?? ''}${where}.`;
  if (await model.change(writeLayout(copied.layout), what)) model.choose(copied.siteId);
  return [];
}

/** The site at hand is kept to be used again, under its name. */
export async function keepAtHand(model: Model): Promise<boolean> {
  const text = siteText(model);
  const name = model.siteAtHand.value?.names.name;
  return text !== null && name !== undefined && (await model.ask('keepTemplate', { name, text })).ok;
}

/** The site at hand as text, with its timings and without its outputs; null where there is none. */
export function siteText(model: Model): string | null {
  const { layout } = model.open.value;
  const site = model.siteAtHand.value;
  const parcel = layout && site ? parcelOf(layout, site.id) : null;
  return parcel && writeParcel(parcel);
}

export interface TextWish {
  /** Default: as in the text. */
  readonly name?: string;
  readonly board: string;
  /** The line of the log for the name that it got. */
  readonly said: (name: string) => string;
}

/** A site from a text, taken in hand. Findings say what is in the way; null: the host refused the change. */
export async function addText(model: Model, text: string, wish: TextWish): Promise<readonly Finding[] | null> {
  const { layout } = model.open.value;
  const read = readParcel(text);
  if (!read.ok) return read.findings;
  if (!layout) return null;
  const name = wish.name ?? read.parcel.site.name;
  const added = pasteSite(layout, read.parcel, { name, board: wish.board });
  if ('findings' in added) return added.findings;
  const called = added.layout.sites.find(({ id }) => id === added.siteId)?.name ?? name;
  if (!(await model.change(writeLayout(added.layout), wish.said(called)))) return null;
  model.choose(added.siteId);
  return [];
}
