/** `amberwick sheet FILE -o OUT`: the wiring sheet that goes under the baseboard, as a page to print or as a table. */
import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { basename } from 'node:path/posix';
import type { Paper, SheetOptions } from '../../shared/drawings/sheet/model.ts';
import { sheetHtml, wiringCsv, wiringSheet } from '../../shared/drawings/sheet/page.ts';
import { checkElectrics } from '../../shared/electrics/check/check.ts';
import { hasErrors } from '../../shared/findings/finding.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { chooseBoard, type Loaded, loadGood } from './load.ts';
import type { Report } from './output.ts';

export interface SheetCommand {
  readonly output: string;
  readonly board?: string;
  readonly paper: string;
}

const PAPERS: readonly string[] = ['a4', 'letter'] satisfies Paper[];

export function sheet(file: string, options: SheetCommand, today: Date = new Date()): Report {
  const wrong = misread(options);
  if (wrong !== null) return wrong;
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { layout, boards: known } = loaded.value;
  // What is wrong with the electrics is told here and stands on the sheet: it is printed all the same.
  const findings = [...loaded.value.findings, ...checkElectrics(layout, known)];
  // Without a board in the command all of them are printed.
  const chosen = options.board === undefined ? null : chooseBoard(loaded.value, options.board);
  if (chosen !== null && !chosen.ok) return chosen.report;
  const made = make(loaded.value, {
    date: dateText(today),
    file: basename(file.replaceAll('\\', '/')),
    paper: options.paper as Paper,
    ...(chosen === null ? {} : { board: chosen.value.id }),
    output: options.output,
  });
  try {
    writeFileSync(options.output, made);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    const words = ['The folder may be missing or protected, or the disk full.', 'Choose another place for the file.'];
    return { ...problem(1, 'notWritten', `${options.output} could not be written.`, words, detail), findings };
  }
  const boards = chosen === null ? loaded.value.boards.map(({ id }) => id) : [chosen.value.id];
  const next = kindOf(options.output) === 'html' ? ' Open it in a browser and print it at 100 %.' : '';
  return {
    exit: hasErrors(findings) ? 1 : 0,
    findings,
    data: { file: options.output, boards },
    text: [`Wrote ${options.output}.${next}`],
  };
}

function make({ layout, boards }: Loaded, { output, ...options }: SheetOptions & { readonly output: string }): string {
  if (kindOf(output) === 'csv') return wiringCsv(layout, boards, options);
  return sheetHtml(wiringSheet(layout, boards, options));
}

const kindOf = (output: string): string => extname(output).slice(1).toLowerCase().replace(/^htm$/, 'html');

/** Arguments that no file could make right. */
function misread({ output, paper }: SheetCommand): Report | null {
  const kind = kindOf(output);
  if (kind === 'pdf') {
    return problem(2, 'misread', 'The command line makes no PDF files.', [
      'A PDF file is made by what prints the page.',
      'Write an .html file, open it in a browser and print it to a PDF file; or use “Wiring sheet” in the app.',
    ]);
  }
  if (kind !== 'html' && kind !== 'csv') {
    return problem(2, 'misread', `The sheet cannot be written as ${output}.`, [
      'What it becomes hangs on the end of the name.',
      'Use a name that ends with .html for a page to print, or with .csv for a table.',
    ]);
  }
  if (PAPERS.includes(paper)) return null;
  return problem(2, 'misread', `There is no paper "${paper}".`, [
    'The pages are laid out for one size.',
    `Use one of these: ${PAPERS.join(', ')}.`,
  ]);
}

function problem(exit: 1 | 2, code: string, what: string, words: readonly string[], detail?: string): Report {
  const [why = '', next = ''] = words;
  const more = detail === undefined ? {} : { detail };
  return { exit, problem: { ...describeProblem('hostFailed', {}), code, what, why, next, ...more } };
}

const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/** `25 November 2026`, by the clock of this computer. */
function dateText(date: Date): string {
  return `${date.getDate()} ${MONTHS[date.getMonth()]} ${date.getFullYear()}`;
}
