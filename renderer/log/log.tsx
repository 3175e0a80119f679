import { useComputed } from '@preact/signals';
import { storyOf } from '../../shared/workbench/story/story.ts';
import { wordsOf } from '../../shared/workbench/story/text.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { clockTime } from './clock-time.ts';
import { NoteField } from './note-field.tsx';
import { Said } from './said.tsx';

/** Entries of which the short form is made. */
const LATEST = 120;

/** What happened last in this session, newest first, in the sentences of the story; and words of one's own. */
export function SessionLog() {
  const { model } = usePanel();
  const beats = useComputed(() =>
    storyOf(model.log.value.slice(-LATEST), model.logbook.zone)
      .flatMap((chapter) => chapter.beats)
      .reverse(),
  ).value;
  return (
    <section class="log" aria-label="Session log">
      <header class="row">
        <h2>Session log</h2>
        <CommandButton id="logbook" />
        <CommandButton id="save-log" />
      </header>
      <NoteField
        id="remark"
        label="Remark"
        placeholder="A remark of yours"
        done="Add"
        take={async (text) => (await model.ask('remark', { text })).ok}
      />
      {beats.length === 0 && <p>Nothing has happened yet.</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <ol class="log-entries" tabIndex={0} aria-label="Entries, newest first">
        {beats.map((beat) => {
          const last = beat.entries.at(-1);
          const frames = beat.entries.flatMap((entry) => entry.frames ?? []);
          return (
            <li key={beat.key} data-kind={beat.kind}>
              <time dateTime={last?.at}>{clockTime(last?.at ?? '')}</time>
              <span>
                {wordsOf(beat)}
                {frames.length > 0 && <Said lines={frames} />}
              </span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
