import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import type { Chapter } from './block.ts';
import { Blocks } from './blocks.tsx';
import { CHAPTERS } from './chapters.ts';
import { countOf, searchHelp } from './search.ts';

/** Without a chapter the list of them; with something typed what was found in all of them. */
export function HelpSheet() {
  const { surface } = usePanel();
  const query = useSignal('');
  const top = useRef<HTMLDivElement>(null);
  const chapter = CHAPTERS.find(({ id }) => id === surface.chapter.value) ?? null;
  const isSearch = query.value.trim() !== '';
  const found = isSearch ? searchHelp(query.value, CHAPTERS) : [];
  // A chapter is read from its beginning.
  useLayoutEffect(() => {
    if (chapter) top.current?.scrollIntoView({ block: 'nearest' });
  }, [chapter]);
  const show = (id: string | null): void => {
    query.value = '';
    surface.chapter.value = id;
  };
  return (
    <div class="help" ref={top}>
      <div class="row help-search">
        <label class="field">
          Look for
          <input
            type="search"
            class="remark"
            autoComplete="off"
            value={query.value}
            onInput={(event) => {
              query.value = event.currentTarget.value;
            }}
          />
        </label>
        {(chapter || isSearch) && (
          <button type="button" class="button" onClick={() => show(null)}>
            All chapters
          </button>
        )}
      </div>
      <p class="help-count" role="status">
        {isSearch && countWords(countOf(found))}
      </p>
      {isSearch
        ? found.map((it) => <Part key={it.id} chapter={it} onOpen={() => show(it.id)} />)
        : chapter
          ? [<Part key={chapter.id} chapter={chapter} />]
          : [<Contents key="contents" onOpen={show} />]}
    </div>
  );
}

function countWords(count: number): string {
  if (count === 0) return 'Nothing found. Try another word.';
  return count === 1 ? '1 place found.' : `${count} places found.`;
}

interface PartProps {
  readonly chapter: Chapter;
  /** Leads to the whole chapter, where this is a part of it. */
  readonly onOpen?: () => void;
}

function Part({ chapter, onOpen }: PartProps) {
  return (
    <section class="help-part" aria-label={chapter.title}>
      <h3>{chapter.title}</h3>
      {!onOpen && chapter.id === 'keys' && <SingleKeys />}
      <Blocks blocks={chapter.blocks} />
      {onOpen && (
        <button type="button" class="button" onClick={onOpen}>
          Read all of {chapter.title}
        </button>
      )}
    </section>
  );
}

function Contents({ onOpen }: { readonly onOpen: (id: string) => void }) {
  return (
    <>
      <ul class="help-contents" aria-label="Chapters">
        {CHAPTERS.map(({ id, title }) => (
          <li key={id}>
            <button type="button" class="button" onClick={() => onOpen(id)}>
              {title}
            </button>
          </li>
        ))}
      </ul>
      <div class="row">
        <CommandButton id="theme" />
        <CommandButton id="find-command" />
        <CommandButton id="about" />
      </div>
    </>
  );
}

/** Speech control may set single keys off by mistake. */
function SingleKeys() {
  const { model } = usePanel();
  const { singleKeys } = model.preferences;
  return (
    <label class="field check">
      <input
        type="checkbox"
        checked={singleKeys.value}
        onChange={(event) => {
          singleKeys.value = event.currentTarget.checked;
        }}
      />
      Single keys
    </label>
  );
}
