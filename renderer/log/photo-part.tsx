import type { Signal } from '@preact/signals';
import { useSignal } from '@preact/signals';
import type { Problem } from '../../shared/workbench/contract.ts';
import { usePanel } from '../model/context.ts';

interface Props {
  /** What was dropped or typed. */
  readonly path: Signal<string>;
  /** Only a name is known of what was dropped. */
  readonly isDropped: Signal<boolean>;
}

/** A photo of the layout, noted by where it is. */
export function PhotoPart({ path, isDropped }: Props) {
  const { model } = usePanel();
  const caption = useSignal('');
  const refused = useSignal<Problem | null>(null);
  const note = async (which: string | null): Promise<void> => {
    const outcome = await model.call('attachPhoto', { path: which, caption: caption.value.trim() });
    refused.value = outcome.ok ? null : outcome.problem;
    if (!outcome.ok) return;
    caption.value = '';
    path.value = '';
    isDropped.value = false;
  };
  return (
    <form
      class="log-part"
      aria-label="Attach a photo"
      onSubmit={(event) => {
        event.preventDefault();
        if (path.value.trim() !== '') void note(path.value.trim());
      }}
    >
      <div class="row">
        <input
          id="photo-path"
          class="remark"
          aria-label="Path of the photo"
          placeholder="photos/market-cross.jpg"
          maxLength={1000}
          value={path}
          onInput={(event) => {
            path.value = event.currentTarget.value;
            refused.value = null;
            isDropped.value = false;
          }}
        />
        <input
          class="remark"
          aria-label="Words with the photo"
          placeholder="What it shows"
          maxLength={2000}
          value={caption}
          onInput={(event) => {
            caption.value = event.currentTarget.value;
          }}
        />
        <button type="submit" class="button" aria-disabled={path.value.trim() === ''}>
          Note this photo
        </button>
        {model.host.value?.shell === 'electron' && (
          <button type="button" class="button" onClick={() => void note(null)}>
            Choose a photo
          </button>
        )}
      </div>
      {refused.value && (
        <p role="alert">
          <b>{refused.value.what}</b> {refused.value.why} {refused.value.next}
        </p>
      )}
      <p class="soft" role={isDropped.value ? 'status' : undefined}>
        {isDropped.value
          ? 'Only its name is known here, as a browser does not tell where a file is. Type its folder before the name to note that, too.'
          : 'The photo stays where it is. Its path is noted, below the folder of the layout where it is in there.'}
      </p>
    </form>
  );
}
