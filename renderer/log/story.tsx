import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { clockText, dateText } from '../../shared/workbench/story/moment.ts';
import type { Search } from '../../shared/workbench/story/search.ts';
import type { Chapter } from '../../shared/workbench/story/types.ts';
import { BeatLine } from './beat.tsx';
import { countOf, firstOf, MOST_DRAWN, newer, older, type Part, partsFrom, type Top, topOf } from './window.ts';

/** Nearer to the end than this counts as at the end, px. */
const AT_END = 24;

interface Props {
  readonly chapters: readonly Chapter[];
  readonly search: Search;
  readonly canCorrect: boolean;
  /** Chapter that somebody wants to go to. */
  readonly goTo: Signal<number | null>;
}

/** Chapters from top to bottom, the newest last, as much of them at once as is drawn without delay. */
export function Story({ chapters, search, canCorrect, goTo }: Props) {
  const top = useSignal<Top>(null);
  /** Counts jumps, also those to where one is. */
  const jumps = useSignal(0);
  const list = useRef<HTMLElement>(null);
  const follows = useRef(true);
  const anchor = useRef<number | null>(null);
  const count = countOf(chapters);
  const first = firstOf(top.value, count);
  const parts = partsFrom(chapters, first);
  const left = count - first - MOST_DRAWN;
  const go = (next: Top, key: number | null): void => {
    top.value = next;
    anchor.current = key;
    follows.current = false;
    jumps.value += 1;
  };
  const wanted = goTo.value;
  useEffect(() => {
    const chapter = chapters.find(({ key }) => key === wanted);
    goTo.value = null;
    if (!chapter) return;
    go(topOf(chapters, chapter.key), chapter.beats[0]?.key ?? null);
    list.current?.focus();
  }, [wanted]);
  useLayoutEffect(() => {
    const box = list.current;
    if (!box) return;
    const sought = anchor.current === null ? null : box.querySelector(`[data-key="${anchor.current}"]`);
    if (sought) {
      // What was in sight stays in sight.
      sought.scrollIntoView({ block: 'start' });
      anchor.current = null;
    } else if (follows.current && top.value === null) box.scrollTop = box.scrollHeight;
  }, [chapters, first, top.value, jumps.value]);
  return (
    <section
      class="story"
      aria-label="Story, newest last"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it
      tabIndex={0}
      ref={list}
      onScroll={({ currentTarget: { scrollTop, clientHeight, scrollHeight } }) => {
        follows.current = scrollHeight - scrollTop - clientHeight < AT_END;
        if (follows.current && left <= 0) top.value = null;
      }}
    >
      {first > 0 && (
        <button
          type="button"
          class="button"
          onClick={() => go(older(top.value, count), parts[0]?.beats[0]?.key ?? null)}
        >
          Older: {first} before this
        </button>
      )}
      {parts.map((part) => (
        <ChapterPart key={part.chapter.key} part={part} search={search} canCorrect={canCorrect} />
      ))}
      {left > 0 && (
        <button
          type="button"
          class="button"
          onClick={() => go(newer(top.value, count), parts.at(-1)?.beats.at(-1)?.key ?? null)}
        >
          Newer: {left} after this
        </button>
      )}
    </section>
  );
}

interface PartProps {
  readonly part: Part;
  readonly search: Search;
  readonly canCorrect: boolean;
}

function ChapterPart({ part: { chapter, beats }, search, canCorrect }: PartProps) {
  const { from, title, isNewDay } = chapter;
  return (
    <div class="chapter">
      {isNewDay && <p class="story-day">{dateText(from)}</p>}
      <h3>
        {clockText(from)} {title}
      </h3>
      <ol>
        {beats.flatMap((beat) => [
          ...(beat.isNewDay
            ? [
                <li key={`day ${beat.key}`} class="story-day">
                  {dateText(beat.from)}
                </li>,
              ]
            : []),
          <BeatLine key={beat.key} beat={beat} search={search} canCorrect={canCorrect} />,
        ])}
      </ol>
    </div>
  );
}
