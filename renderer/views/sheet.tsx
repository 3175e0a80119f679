import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { closeSheet } from '../model/surface.ts';
import { SHEETS } from './sheets.ts';

/** What is laid over the right side of any view. */
export function SheetOver() {
  const { model, surface } = usePanel();
  const which = surface.sheet.value;
  if (which === null) return null;
  const { label, size, Body } = SHEETS[which];
  return (
    // The key keeps one sheet from being taken for another.
    <Sheet key={which} label={typeof label === 'string' ? label : label(model)} {...(size ? { class: size } : {})}>
      <Body />
    </Sheet>
  );
}

interface Props {
  readonly label: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

function Sheet({ label, class: more, children }: Props) {
  const { surface } = usePanel();
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    // Something in the sheet may have taken the keyboard already.
    if (!sheet.current?.contains(before)) sheet.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <aside
      class={more ? `sheet ${more}` : 'sheet'}
      ref={sheet}
      tabIndex={-1}
      aria-label={label}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        closeSheet(surface);
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
