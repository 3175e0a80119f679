import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { CommandButton } from '../commands/button.tsx';
import { chapterOf } from '../help/about.ts';
import { openHelp } from '../help/open.ts';
import { usePanel } from '../model/context.ts';
import { closeSheet, type Sheet } from '../model/surface.ts';
import { Boundary } from './boundary.tsx';
import { SHEETS } from './sheets.ts';

/** What is laid over the right side of any view. Under the help a sheet stays as it is, with what was typed in it. */
export function SheetOver() {
  const { surface } = usePanel();
  const which = surface.sheet.value;
  const kept = which === 'help' ? surface.under.value : null;
  return (
    <>
      {kept !== null && <OneSheet key={kept} which={kept} isUnder />}
      {/* The key keeps one sheet from being taken for another. */}
      {which !== null && <OneSheet key={which} which={which} />}
    </>
  );
}

interface OneProps {
  readonly which: NonNullable<Sheet>;
  readonly isUnder?: boolean;
}

function OneSheet({ which, isUnder = false }: OneProps) {
  const { model, surface } = usePanel();
  const { label, size, Body } = SHEETS[which];
  const words = typeof label === 'string' ? label : label(model);
  const chapter = chapterOf(which);
  return (
    <SheetFrame
      label={words}
      isUnder={isUnder}
      {...(size ? { class: size } : {})}
      {...(chapter === null ? {} : { onHelp: () => openHelp(surface, chapter) })}
    >
      <Boundary part="This sheet">
        <Body />
      </Boundary>
    </SheetFrame>
  );
}

interface Props {
  readonly label: string;
  readonly class?: string;
  /** Hidden, but there. */
  readonly isUnder: boolean;
  readonly onHelp?: () => void;
  readonly children: ComponentChildren;
}

function SheetFrame({ label, class: more, isUnder, onHelp, children }: Props) {
  const { surface } = usePanel();
  const sheet = useRef<HTMLElement>(null);
  // As it is drawn for the first time: a field of the sheet takes the keyboard before any effect of the frame runs.
  const opener = useRef(document.activeElement);
  useEffect(() => {
    const before = opener.current;
    // Something in the sheet may have taken the keyboard already.
    if (!sheet.current?.contains(document.activeElement)) sheet.current?.focus();
    return () => {
      // What lay under it may only just come back into sight.
      queueMicrotask(() => {
        if (!(before instanceof HTMLElement)) return;
        // Another size of the window may have drawn it anew.
        const there = before.isConnected ? before : document.getElementById(before.id);
        there?.focus();
      });
    };
  }, []);
  return (
    <aside
      class={more ? `sheet ${more}` : 'sheet'}
      ref={sheet}
      tabIndex={-1}
      hidden={isUnder}
      aria-label={label}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        closeSheet(surface);
      }}
    >
      <header class="row">
        <h2>{label}</h2>
        {onHelp && (
          <button type="button" class="button square" aria-label={`Help about ${label}`} onClick={onHelp}>
            ?
          </button>
        )}
        <CommandButton id="put-away">Close</CommandButton>
      </header>
      {children}
    </aside>
  );
}
