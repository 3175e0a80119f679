import { useEffect, useRef } from 'preact/hooks';
import type { WiringSheet } from '../../shared/drawings/sheet/page.ts';

interface Props {
  readonly sheet: WiringSheet;
  /** Takes what prints the page as it is shown; null when it is gone. */
  readonly onPrinter: (print: (() => void) | null) => void;
  readonly onEscape: () => void;
}

/**
 * The sheet as it is printed, in a frame without scripts. The frame has the panel's content policy, which allows no
 * style element: its rules are adopted from here.
 */
export function SheetPreview({ sheet, onPrinter, onEscape }: Props) {
  const frame = useRef<HTMLIFrameElement>(null);
  useEffect(() => {
    const { current } = frame;
    if (!current) return;
    const show = (): void => {
      if (current.contentDocument?.getElementById(BODY)) return;
      fill(current, sheet, onEscape);
    };
    fill(current, sheet, onEscape);
    // Some browsers put a fresh empty page in place a moment later.
    current.addEventListener('load', show);
    onPrinter(() => current.contentWindow?.print());
    return () => {
      current.removeEventListener('load', show);
      onPrinter(null);
    };
  }, [sheet]);
  return (
    <iframe
      ref={frame}
      class="paper"
      title="The sheet as it is printed"
      // Modals: printing is one of them.
      sandbox="allow-same-origin allow-modals"
    />
  );
}

const BODY = 'wiring-sheet';

function fill(frame: HTMLIFrameElement, { title, styles, body }: WiringSheet, onEscape: () => void): void {
  const page = frame.contentDocument;
  const inside = frame.contentWindow as (Window & typeof globalThis) | null;
  if (!page || !inside) return;
  // Whoever reads on page four stays there.
  const { scrollX, scrollY } = inside;
  // A fresh frame is in the old mode of browsers until it has a document type.
  page.open();
  page.write(
    '<!doctype html><html lang="en-GB"><head><meta charset="utf-8"><title></title></head><body></body></html>',
  );
  page.close();
  page.title = title;
  const rules = new inside.CSSStyleSheet();
  rules.replaceSync(styles);
  page.adoptedStyleSheets = [rules];
  page.body.id = BODY;
  // shared/drawings makes the text and escapes every name in it.
  page.body.innerHTML = body;
  inside.scrollTo(scrollX, scrollY);
  page.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') onEscape();
  });
}
