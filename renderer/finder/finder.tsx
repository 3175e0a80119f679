import { useSignal } from '@preact/signals';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { type Entry, entriesOf, find } from './entries.ts';
import { noteRecent, recentOf } from './recent.ts';

const PAGE = 6;

/** Over everything while it is asked for: type a few letters, choose, Enter. */
export function Finder() {
  const { surface } = usePanel();
  return surface.finder.value ? <FinderDialog /> : null;
}

function FinderDialog() {
  const { model, surface } = usePanel();
  const { recent } = model.preferences;
  const query = useSignal('');
  const chosen = useSignal(0);
  const told = useSignal('');
  const dialog = useRef<HTMLDialogElement>(null);
  const list = useRef<HTMLDivElement>(null);
  // What can be done is looked at once: a list that moves under the finger is of no use.
  const entries = useMemo(() => entriesOf(model, surface), [model, surface]);
  const order = useMemo(() => recentOf(recent), [recent]);
  const found = useMemo(() => find(query.value, entries, order), [query.value, entries, order]);
  const at = Math.min(chosen.value, found.length - 1);

  useLayoutEffect(() => {
    const it = dialog.current;
    it?.showModal();
    // Closing gives the keyboard back to where it was.
    return () => it?.close();
  }, []);
  useLayoutEffect(() => {
    list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [at, found]);

  const close = (): void => {
    surface.finder.value = false;
  };
  const choose = (entry: Entry | undefined): void => {
    if (!entry) return;
    if (entry.why !== null) {
      told.value = `${entry.label}: ${entry.why}`;
      return;
    }
    noteRecent(recent, entry.id);
    dialog.current?.close();
    close();
    void entry.run();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    // No key is a command while a command is looked for.
    event.stopPropagation();
    const steps: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1, PageDown: PAGE, PageUp: -PAGE };
    const by = steps[event.key];
    if (by !== undefined) {
      event.preventDefault();
      const next = at + by;
      const isEnd = next < 0 || next >= found.length;
      if (Math.abs(by) === 1) chosen.value = (next + found.length) % Math.max(1, found.length);
      else chosen.value = isEnd ? (by < 0 ? 0 : found.length - 1) : next;
      told.value = '';
    } else if (event.key === 'Enter') {
      event.preventDefault();
      choose(found[at]);
    } else if (event.key === 'Escape' || ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'k')) {
      event.preventDefault();
      close();
    }
  };

  return (
    <dialog
      ref={dialog}
      class="finder"
      aria-label="Find a command"
      onKeyDown={onKeyDown}
      onCancel={close}
      onClick={(event) => {
        if (event.target === dialog.current) close();
      }}
    >
      <div class="finder-inside">
        <div class="row">
          <input
            class="finder-field"
            role="combobox"
            aria-label="Find a command, a site or a time"
            aria-expanded="true"
            aria-controls="finder-list"
            aria-autocomplete="list"
            {...(found[at] ? { 'aria-activedescendant': `found-${at}` } : {})}
            placeholder="What do you want to do?"
            autoComplete="off"
            spellcheck={false}
            value={query.value}
            onInput={(event) => {
              query.value = event.currentTarget.value;
              chosen.value = 0;
              told.value = '';
            }}
          />
          <button type="button" class="button" onClick={close}>
            Close
          </button>
        </div>
        <p class="finder-told" role="status">
          {told.value || countWords(found.length, query.value)}
        </p>
        {/* The keyboard stays in the field, which names the chosen one. */}
        <div ref={list} id="finder-list" class="finder-list" role="listbox" aria-label="Found" tabIndex={-1}>
          {found.map((entry, index) => (
            // biome-ignore lint/a11y/useKeyWithClickEvents: Enter in the field chooses
            // biome-ignore lint/a11y/useFocusableInteractive: aria-activedescendant of the field
            <div
              key={entry.id}
              id={`found-${index}`}
              class="finder-entry"
              data-entry={entry.id}
              role="option"
              aria-selected={index === at}
              aria-disabled={entry.why !== null}
              onClick={() => {
                chosen.value = index;
                choose(entry);
              }}
            >
              <EntryText entry={entry} />
            </div>
          ))}
        </div>
      </div>
    </dialog>
  );
}

function EntryText({ entry }: { readonly entry: Entry }) {
  return (
    <>
      <span class="finder-label">{entry.label}</span>
      <span class="finder-where">{entry.where}</span>
      {entry.shortcut && <kbd>{entry.shortcut}</kbd>}
      <span class="finder-hint">{entry.why ?? entry.hint}</span>
    </>
  );
}

function countWords(count: number, query: string): string {
  if (count === 0) return `Nothing fits "${query}". Try another word.`;
  return query.trim() === '' ? 'The last ones first. ↑ and ↓ choose, Enter does it.' : `${count} found.`;
}
