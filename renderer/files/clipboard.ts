/** The site at hand goes to the clipboard as text and comes from there: into another layout, a message, a note. */
import { pasteSite } from '../../shared/layout/copy-site/copy.ts';
import { parcelOf, readParcel, writeParcel } from '../../shared/layout/copy-site/parcel.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Model } from '../model/model.ts';

/** `say`: one line about what went to the clipboard. Gives back a function that ends it. */
export function hearClipboard(document: Document, model: Model, say: (line: string) => void): () => void {
  const onCopy = (event: ClipboardEvent): void => {
    if (isText(event.target) || !document.getSelection()?.isCollapsed) return;
    const text = siteText(model);
    if (text === null) return;
    event.clipboardData?.setData('text/plain', text);
    event.preventDefault();
    say(`Copied ${model.siteAtHand.peek()?.names.name} as text. Paste it into this layout or another one.`);
  };
  const onPaste = (event: ClipboardEvent): void => {
    if (isText(event.target)) return;
    const text = event.clipboardData?.getData('text/plain') ?? '';
    // Other text is none of ours.
    if (!text.includes('amberwick-site')) return;
    event.preventDefault();
    void pasteText(model, text);
  };
  document.addEventListener('copy', onCopy);
  document.addEventListener('paste', onPaste);
  return () => {
    document.removeEventListener('copy', onCopy);
    document.removeEventListener('paste', onPaste);
  };
}

/** The site at hand, with its timings and without its outputs; null where there is none. */
export function siteText(model: Model): string | null {
  const { layout } = model.open.value;
  const site = model.siteAtHand.value;
  const parcel = layout && site ? parcelOf(layout, site.id) : null;
  return parcel && writeParcel(parcel);
}

export async function pasteText(model: Model, text: string): Promise<boolean> {
  const { layout } = model.open.value;
  const read = readParcel(text);
  if (!read.ok || !layout) {
    const [finding] = read.ok ? [] : read.findings;
    if (finding) tell(model, finding);
    return false;
  }
  const board = model.boardAtHand.value?.id ?? layout.boards[0]?.id ?? '';
  const pasted = pasteSite(layout, read.parcel, { name: read.parcel.site.name, board });
  if ('findings' in pasted) {
    const [finding] = pasted.findings;
    if (finding) tell(model, finding);
    return false;
  }
  const name = pasted.layout.sites.find(({ id }) => id === pasted.siteId)?.name ?? '';
  if (!(await model.change(writeLayout(pasted.layout), `Pasted ${name}.`))) return false;
  model.choose(pasted.siteId);
  return true;
}

function tell(
  model: Model,
  finding: { readonly code: string; readonly what: string; readonly why: string; readonly cure: string },
) {
  const { code, what, why, cure } = finding;
  model.trouble.value = { about: {}, problem: { code, what, why, next: cure } };
}

function isText(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, [contenteditable]');
}
