import { useSignal } from '@preact/signals';
import { usePanel } from '../model/context.ts';
import type { LogPart } from '../model/logbook.ts';
import { Earlier } from './earlier.tsx';
import { Filters } from './filters.tsx';
import { NoteField } from './note-field.tsx';
import { OpenedBar } from './opened-bar.tsx';
import { PhotoPart } from './photo-part.tsx';
import { SavePart } from './save-part.tsx';
import { SinceLastKeep } from './since-keep.tsx';
import { Story } from './story.tsx';

const TABS = [
  ['now', 'This session'],
  ['earlier', 'Earlier sessions'],
] as const;

const PARTS: readonly (readonly [part: LogPart, name: string])[] = [
  ['note', 'Write a note'],
  ['photo', 'Add a photo'],
  ['save', 'Save as a file'],
];

/** The log as the story of the evening, and the stories of other evenings. */
export function LogbookSheet() {
  const { model, surface } = usePanel();
  const { logbook } = model;
  const path = useSignal('');
  const isDropped = useSignal(false);
  const tab = logbook.tab.value;
  const isNow = logbook.opened.value === null && tab === 'now';
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same is had by typing the path
    <div
      class="logbook"
      onDragOver={(event) => {
        if (isNow && event.dataTransfer?.types.includes('Files')) event.preventDefault();
      }}
      onDrop={(event) => {
        const file = event.dataTransfer?.files[0];
        if (!isNow || !file?.type.startsWith('image/')) return;
        event.preventDefault();
        path.value = file.name;
        isDropped.value = true;
        logbook.part.value = 'photo';
        surface.focus('photo-path');
      }}
    >
      <div class="row">
        {TABS.map(([id, name]) => (
          <button
            key={id}
            type="button"
            class="tab"
            aria-pressed={tab === id && logbook.opened.value === null}
            onClick={() => logbook.show(id)}
          >
            {name}
          </button>
        ))}
        {(isNow || logbook.opened.value !== null) &&
          PARTS.filter(([part]) => isNow || part === 'save').map(([part, name]) => (
            <button
              key={part}
              type="button"
              class="button"
              aria-expanded={logbook.part.value === part}
              onClick={() => {
                logbook.part.value = logbook.part.value === part ? null : part;
              }}
            >
              {name}
            </button>
          ))}
      </div>
      {isNow && logbook.part.value === 'note' && (
        <NoteField
          id="note"
          label="Your note"
          placeholder="What you saw, what you tried"
          done="Put it in the log"
          rows={2}
          take={async (text) => (await model.ask('remark', { text })).ok}
        />
      )}
      {isNow && logbook.part.value === 'photo' && <PhotoPart path={path} isDropped={isDropped} />}
      {logbook.part.value === 'save' && (isNow || logbook.opened.value !== null) && <SavePart />}
      {isNow && <SinceLastKeep />}
      {isNow || logbook.opened.value !== null ? <Reading /> : <Earlier />}
    </div>
  );
}

function Reading() {
  const { model } = usePanel();
  const { logbook } = model;
  const opened = logbook.opened.value;
  const chapters = logbook.shown.value;
  return (
    <>
      {opened && <OpenedBar opened={opened} />}
      <Filters />
      {chapters.length === 0 && (
        <p>{logbook.entries.value.length === 0 ? 'Nothing has happened yet.' : 'Nothing of this happened.'}</p>
      )}
      <Story
        key={opened?.name ?? ''}
        chapters={chapters}
        search={logbook.filter.value.search}
        canCorrect={opened === null}
        goTo={logbook.goTo}
      />
    </>
  );
}
