import { useSignal } from '@preact/signals';
import type { Beat } from '../../shared/workbench/story/types.ts';
import { usePanel } from '../model/context.ts';
import { NoteField } from './note-field.tsx';

/** Other words for a note. The log keeps what stood there before; the story shows the new ones. */
export function Correcting({ beat }: { readonly beat: Beat }) {
  const { model, surface } = usePanel();
  const isOpen = useSignal(false);
  const first = beat.entries[0];
  const last = beat.entries.at(-1);
  if (!first || !last) return null;
  const words = last.data?.takenBack === true ? '' : captionOf(beat);
  const id = `correct-${beat.key}`;
  const close = (): void => {
    isOpen.value = false;
    surface.focus(`${id}-open`);
  };
  const correct = async (text: string): Promise<boolean> => {
    const { ok } = await model.ask('correctRemark', { number: first.number, text });
    if (ok) close();
    return false;
  };
  if (!isOpen.value) {
    return (
      <button
        type="button"
        class="button"
        id={`${id}-open`}
        aria-label={`Correct: ${words.slice(0, 40) || 'the note that was taken back'}`}
        onClick={() => {
          isOpen.value = true;
          surface.focus(id);
        }}
      >
        Correct
      </button>
    );
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape shuts it from whatever is in it
    <div
      class="correcting"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        // One step back at a time: the sheet stays.
        event.stopPropagation();
        close();
      }}
    >
      <NoteField id={id} label="Other words" done="Correct it" text={words} rows={2} take={correct}>
        {words !== '' && (
          <button type="button" class="button" onClick={() => void correct('')}>
            Take it back
          </button>
        )}
        <button type="button" class="button" onClick={close}>
          Leave it
        </button>
      </NoteField>
    </div>
  );
}

/** The words with a photo without its path, as they were last. */
function captionOf({ entries, kind }: Beat): string {
  const last = entries.at(-1);
  const path = entries[0]?.data?.path;
  if (kind !== 'photo' || entries.length > 1) return last?.text ?? '';
  return last?.text.startsWith(`Photo ${path}: `) ? last.text.slice(`Photo ${path}: `.length) : '';
}
