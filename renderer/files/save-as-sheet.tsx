import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { fileName } from '../../shared/workbench/file-names.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { useFiles } from './files-list.ts';
import { goBackToSaved, inTheWay, nameFor, putAway, saveAs, saveOver } from './saving.ts';

/** A name for the layout's file, and what to do where one is in the way. */
export function SaveAsSheet() {
  const { model, surface } = usePanel();
  const name = useSignal(nameFor(model));
  const field = useRef<HTMLInputElement>(null);
  const list = useFiles();
  useEffect(() => field.current?.select(), []);
  const problem = inTheWay.value;
  const checked = fileName(name.value);
  const isDesktop = model.host.value?.shell === 'electron';
  const isChanged = problem?.code === 'fileChanged';
  return (
    <form
      class="save-as"
      onSubmit={(event) => {
        event.preventDefault();
        void saveAs(model, surface, name.value, false);
      }}
    >
      {problem && (
        <div class="save-problem" role="alert">
          <p>
            <b>{problem.what}</b> {problem.why}
          </p>
          <p>{problem.next}</p>
          <div class="row">
            {isChanged && (
              <button type="button" class="button" onClick={() => void saveOver(model, surface)}>
                Save over it
              </button>
            )}
            {isChanged && (
              <button
                type="button"
                class="button"
                onClick={async () => {
                  if (await goBackToSaved(model)) putAway(surface);
                }}
              >
                Take what is in the file
              </button>
            )}
            {problem.code === 'nameTaken' && (
              <button type="button" class="button" onClick={() => void saveAs(model, surface, name.value, true)}>
                Save over that file
              </button>
            )}
          </div>
        </div>
      )}
      <label class="field">
        Name of the file
        <input
          ref={field}
          class="remark"
          value={name.value}
          maxLength={120}
          aria-describedby="save-as-says"
          aria-invalid={!checked.ok}
          onInput={(event) => {
            name.value = event.currentTarget.value;
          }}
        />
      </label>
      <p id="save-as-says" aria-live="polite">
        {checked.ok ? `It is saved as ${checked.name}${list?.folder ? ` in ${list.folder}` : ''}.` : checked.why}
      </p>
      <div class="row">
        <button type="submit" class="button strong start-go" aria-disabled={!checked.ok}>
          {isDesktop ? 'Choose where' : 'Save it'}
        </button>
        <CommandButton id="save-copy" />
      </div>
    </form>
  );
}
