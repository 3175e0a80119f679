/** `amberwick image FILE -o OUT`: the board image as bytes, and what each part of it takes. */
import { writeFileSync } from 'node:fs';
import { hasErrors } from '../../shared/findings/finding.ts';
import { CAPACITY } from '../../shared/table/format.ts';
import { imageCrc, imageShape } from '../../shared/table/shape.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { chooseBoard, loadLayout } from './load.ts';
import { columns, type Report } from './output.ts';

const hex4 = (value: number): string => value.toString(16).toUpperCase().padStart(4, '0');

export function image(file: string, options: { readonly output: string; readonly board?: string }): Report {
  const loaded = loadLayout(file);
  if (!loaded.ok) return loaded.report;
  const { findings } = loaded.value;
  if (loaded.value.boards.length === 0) return { exit: 1, findings };
  const chosen = chooseBoard(loaded.value, options.board);
  if (!chosen.ok) return chosen.report;
  const { id, image: bytes, budget, free, table } = chosen.value;
  const slot = CAPACITY[table.chip].image;
  const used = slot - free;
  const sizes = { board: id, slot, used, free, parts: budget };
  const text = [
    ...columns([
      ...budget.map((part) => [part.part, String(part.bytes)]),
      ['used', String(used)],
      ['left', String(free)],
    ]),
  ];
  if (bytes === null || hasErrors(findings)) return { exit: 1, findings, data: sizes, text };
  try {
    writeFileSync(options.output, bytes);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    const words = {
      what: `${options.output} could not be written.`,
      why: 'The folder may be missing or protected, or the disk full.',
      next: 'Choose another place for the file.',
    };
    return {
      exit: 1,
      findings,
      problem: { ...describeProblem('hostFailed', {}), code: 'notWritten', ...words, detail },
    };
  }
  const crc = hex4(imageCrc(bytes));
  const shape = hex4(imageShape(bytes) ?? 0);
  return {
    exit: 0,
    findings,
    data: { ...sizes, crc, shape, file: options.output },
    text: [...text, `Wrote ${bytes.length} bytes to ${options.output}: CRC ${crc}, table hash ${shape}.`],
  };
}
