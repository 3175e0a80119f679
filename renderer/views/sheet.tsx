import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { BoardPanel } from '../board/board-panel.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { Help } from './help.tsx';

/** Boards or help laid over the right side of any view. */
export function SheetOver() {
  const { surface } = usePanel();
  switch (surface.sheet.value) {
    case 'board':
      return (
        <Sheet label="Board and port">
          <BoardPanel />
        </Sheet>
      );
    case 'help':
      return (
        <Sheet label="Keys and cautions">
          <Help />
        </Sheet>
      );
    default:
      return null;
  }
}

function Sheet({ label, children }: { readonly label: string; readonly children: ComponentChildren }) {
  const { surface } = usePanel();
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    sheet.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <aside
      class="sheet"
      ref={sheet}
      tabIndex={-1}
      aria-label={label}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        surface.sheet.value = null;
      }}
    >
      <header class="row">
        <h2>{label}</h2>
        <CommandButton id="put-away">Close</CommandButton>
      </header>
      {children}
    </aside>
  );
}
