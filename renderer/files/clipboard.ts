/** The site at hand goes to the clipboard as text and comes from there: into another layout, a message, a note. */
import { problemOf } from '../findings/problem.ts';
import type { Model } from '../model/model.ts';
import { addText, siteText } from '../new-site/copy.ts';

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

/** True when it is in the layout; else it is said what is in the way. */
export async function pasteText(model: Model, text: string): Promise<boolean> {
  const board = model.boardAtHand.value?.id ?? '';
  const findings = await addText(model, text, { board, said: (name) => `Pasted ${name}.` });
  const [finding] = findings ?? [];
  if (finding) model.trouble.value = { about: {}, problem: problemOf(finding) };
  return findings?.length === 0;
}

function isText(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, [contenteditable]');
}
