import { useSignal } from '@preact/signals';
import type { Format } from '../../shared/workbench/story/export.ts';
import { isEverything } from '../../shared/workbench/story/filter.ts';
import { usePanel } from '../model/context.ts';
import { saveLogAs } from './saving.ts';

const FORMATS: readonly { readonly format: Format; readonly name: string; readonly hint: string }[] = [
  { format: 'txt', name: 'As a text', hint: 'The story, for any editor and for paper.' },
  { format: 'csv', name: 'As a table', hint: 'One entry a row, for spreadsheets (CSV).' },
  { format: 'jsonl', name: 'As JSON Lines', hint: 'One entry a line with nothing left out, for programs.' },
];

/** The log as a file. */
export function SavePart() {
  const { model, surface } = usePanel();
  const isFiltered = !isEverything(model.logbook.filter.value);
  const onlyShown = useSignal(true);
  return (
    <section class="log-part" aria-label="Save as a file">
      {isFiltered && (
        <label class="field check">
          <input
            type="checkbox"
            checked={onlyShown.value}
            onChange={(event) => {
              onlyShown.value = event.currentTarget.checked;
            }}
          />
          Only what is shown
        </label>
      )}
      <ul class="formats">
        {FORMATS.map(({ format, name, hint }) => (
          <li key={format} class="row">
            <button
              type="button"
              class="button"
              onClick={() => {
                const opened = model.logbook.opened.peek();
                void saveLogAs(model, surface, format, { opened, onlyShown: isFiltered && onlyShown.value });
              }}
            >
              {name}
            </button>
            <span>{hint}</span>
          </li>
        ))}
      </ul>
      <p class="soft">Photos are named by their path; they are not in the file.</p>
    </section>
  );
}
