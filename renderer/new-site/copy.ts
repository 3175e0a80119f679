/** Copies and templates of sites, as a person at the panel makes them. */
import type { Finding } from '../../shared/findings/finding.ts';
import { copySite, pasteSite } from '../../shared/layout/copy-site/copy.ts';
import { readParcel } from '../../shared/layout/copy-site/parcel.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { siteText } from '../files/clipboard.ts';
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

/** A site from a template; findings say what is in the way. */
export async function addTemplate(
  model: Model,
  text: string,
  name: string,
  board: string,
): Promise<readonly Finding[] | null> {
  const { layout } = model.open.value;
  const read = readParcel(text);
  if (!layout) return null;
  if (!read.ok) return read.findings;
  const added = pasteSite(layout, read.parcel, { name, board });
  if ('findings' in added) return added.findings;
  const called = added.layout.sites.find(({ id }) => id === added.siteId)?.name ?? name;
  if (!(await model.change(writeLayout(added.layout), `Added ${called} (template).`))) return null;
  model.choose(added.siteId);
  return [];
}
