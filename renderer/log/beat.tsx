import { useSignal } from '@preact/signals';
import type { LogEntry } from '../../shared/workbench/contract.ts';
import type { Search } from '../../shared/workbench/story/search.ts';
import { spanOf, wordsOf } from '../../shared/workbench/story/text.ts';
import type { Beat } from '../../shared/workbench/story/types.ts';
import { clockTime } from './clock-time.ts';
import { Correcting } from './correcting.tsx';
import { Marked } from './marked.tsx';

interface Props {
  readonly beat: Beat;
  readonly search: Search;
  /** Notes of this session can be corrected, those of earlier ones not. */
  readonly canCorrect: boolean;
}

/** One sentence of the story, with the entries that it is made of. */
export function BeatLine({ beat, search, canCorrect }: Props) {
  const isNote = beat.kind === 'remark' || beat.kind === 'photo';
  const isTrouble = beat.groups.includes('trouble');
  const lines = beat.entries.reduce((sum, { frames }) => sum + (frames?.length ?? 0), 0);
  return (
    <li class="beat" data-key={beat.key} data-kind={beat.kind} data-trouble={isTrouble}>
      <time dateTime={beat.entries[0]?.at}>{spanOf(beat)}</time>
      <div class="beat-words">
        <p>
          {isTrouble && <b>Trouble. </b>}
          <Marked text={wordsOf(beat)} search={search} />
        </p>
        {beat.kind === 'photo' && <PhotoPath entry={beat.entries[0]} />}
        {(beat.entries.length > 1 || lines > 0) && (
          <Folded entries={beat.entries} lines={lines} search={search} isNote={isNote} />
        )}
      </div>
      {isNote && canCorrect && <Correcting beat={beat} />}
    </li>
  );
}

function PhotoPath({ entry }: { readonly entry: LogEntry | undefined }) {
  const from = entry?.data?.from;
  if (from === 'layout') return <p class="soft">In the folder of the layout.</p>;
  return from === 'name' ? <p class="soft">Only its name was told, not where it is.</p> : null;
}

interface FoldedProps {
  readonly entries: readonly LogEntry[];
  readonly lines: number;
  readonly search: Search;
  readonly isNote: boolean;
}

/** Drawn only while it is open: most stay shut, and there may be thousands. */
function Folded({ entries, lines, search, isNote }: FoldedProps) {
  const isOpen = useSignal(false);
  const many = isNote ? `${entries.length} versions` : `${entries.length} entries`;
  const said = lines === 1 ? '1 line from the cable' : `${lines} lines from the cable`;
  return (
    <details
      class="folded"
      onToggle={(event) => {
        isOpen.value = event.currentTarget.open;
      }}
    >
      <summary>{[entries.length > 1 ? many : '', lines > 0 ? said : ''].filter(Boolean).join(', ')}</summary>
      {isOpen.value && (
        <ol>
          {entries.map((entry) => (
            <li key={entry.number}>
              <p>
                <time dateTime={entry.at}>{clockTime(entry.at)}</time> <Marked text={entry.text} search={search} />
              </p>
              {entry.frames && (
                <ol class="said-lines">
                  {entry.frames.map((line, at) => (
                    <li key={at}>
                      <Marked text={line} search={search} />
                    </li>
                  ))}
                </ol>
              )}
            </li>
          ))}
        </ol>
      )}
    </details>
  );
}
