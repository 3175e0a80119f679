import { useSignal } from '@preact/signals';
import { useMemo, useRef } from 'preact/hooks';
import { type Paper, SHEET_PARTS, type SheetOptions, type SheetPart } from '../../shared/drawings/sheet/model.ts';
import { sheetHtml, type WiringSheet, wiringCsv, wiringSheet } from '../../shared/drawings/sheet/page.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { usePanel } from '../model/context.ts';
import { closeSheet } from '../model/surface.ts';
import { dateText, fileName, keptChecks, PART_NAMES } from './choices.ts';
import { SheetPreview } from './preview.tsx';

/** What goes under the baseboard: chosen, looked at, printed or saved. */
export function WiringSheetOver() {
  const { model } = usePanel();
  const { layout, boards } = model.open.value;
  if (!layout || boards.length === 0) {
    return <p>There is nothing to print yet. Mend what is wrong with the layout, or open another one.</p>;
  }
  return <Choose layout={layout} />;
}

function Choose({ layout }: { readonly layout: Layout }) {
  const { model, surface } = usePanel();
  const { boards, file } = model.open.value;
  const board = useSignal('');
  const paper = useSignal<Paper>('a4');
  const parts = useSignal<ReadonlySet<SheetPart>>(new Set(SHEET_PARTS));
  const print = useRef<(() => void) | null>(null);
  const checks = keptChecks(model);
  const only = boards.some(({ id }) => id === board.value) ? { board: board.value } : {};
  const options: SheetOptions = {
    date: dateText(new Date()),
    file,
    ...only,
    paper: paper.value,
    parts: SHEET_PARTS.filter((part) => parts.value.has(part)),
    checks,
  };
  // A check of forty lamps makes a new record with each answer; other news of a board changes nothing here.
  const key = JSON.stringify(options);
  const sheet = useMemo(() => wiringSheet(layout, boards, options), [layout, boards, key]);
  const name = fileName(file, only.board);
  return (
    <div class="paper-choices">
      <fieldset class="row">
        <legend>Pages</legend>
        {SHEET_PARTS.map((part) => (
          <label key={part} class="field check">
            <input
              type="checkbox"
              checked={parts.value.has(part)}
              onChange={(event) => (parts.value = withPart(parts.value, part, event.currentTarget.checked))}
            />
            {PART_NAMES[part]}
          </label>
        ))}
      </fieldset>
      <div class="row">
        {boards.length > 1 && (
          <label class="field">
            Board
            <select value={board.value} onChange={(event) => (board.value = event.currentTarget.value)}>
              <option value="">all of them</option>
              {boards.map((it) => (
                <option key={it.id} value={it.id}>
                  {it.name}
                </option>
              ))}
            </select>
          </label>
        )}
        <label class="field">
          Paper
          <select value={paper.value} onChange={(event) => (paper.value = event.currentTarget.value as Paper)}>
            <option value="a4">A4</option>
            <option value="letter">US letter</option>
          </select>
        </label>
        <SavePdf sheet={sheet} name={name} />
        <button type="button" class="button" onClick={() => print.current?.()}>
          Print
        </button>
        <button type="button" class="button" onClick={() => surface.saveFile(`${name}.html`, sheetHtml(sheet))}>
          Save as HTML
        </button>
        <button
          type="button"
          class="button"
          onClick={() => surface.saveFile(`${name}.csv`, wiringCsv(layout, boards, options))}
        >
          Save as CSV
        </button>
      </div>
      <p class="soft">
        Print at 100 %, not “fit to page”: the ruler on the sheet shows whether the printer kept the scale.
      </p>
      <SheetPreview
        sheet={sheet}
        onPrinter={(how) => {
          print.current = how;
        }}
        onEscape={() => closeSheet(surface)}
      />
    </div>
  );
}

function withPart(parts: ReadonlySet<SheetPart>, part: SheetPart, on: boolean): ReadonlySet<SheetPart> {
  return new Set(SHEET_PARTS.filter((it) => (it === part ? on : parts.has(it))));
}

/** Only where the shell can make one; a browser has its own printer for that. */
function SavePdf({ sheet, name }: { readonly sheet: WiringSheet; readonly name: string }) {
  const { model, surface } = usePanel();
  const isBusy = useSignal(false);
  if (model.host.value?.shell !== 'electron') return null;
  const save = async (): Promise<void> => {
    if (isBusy.value) return;
    isBusy.value = true;
    const made = await model.ask('makePdf', { name: `${name}.pdf`, html: sheetHtml(sheet) });
    isBusy.value = false;
    if (made.ok) surface.saveFile(made.value.name, bytesOf(made.value.base64));
  };
  return (
    <button type="button" class="button strong" aria-disabled={isBusy.value} onClick={() => void save()}>
      {isBusy.value ? 'Making the PDF …' : 'Save as PDF'}
    </button>
  );
}

const bytesOf = (base64: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
