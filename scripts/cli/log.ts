/** `amberwick log`: a session log as a story, as a table, or the part of it that is looked for. */
import { readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Problem } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { counted } from '../../shared/workbench/story/counted.ts';
import { exported, type Format } from '../../shared/workbench/story/export.ts';
import { GROUPS, type Group } from '../../shared/workbench/story/groups.ts';
import { readLines } from '../../shared/workbench/story/lines.ts';
import { searchFor } from '../../shared/workbench/story/search.ts';
import type { Report } from './output.ts';

export interface LogOptions {
  readonly format: string;
  readonly search?: string;
  readonly only?: string;
  readonly output?: string;
}

const FORMATS: Readonly<Record<string, Format>> = { text: 'txt', csv: 'csv', jsonl: 'jsonl' };

/** Times are those of the clock on the wall of this computer. Lines that are no entry are left out and counted. */
export function storyOfLog(file: string, { format, search = '', only = '', output }: LogOptions): Report {
  const as = FORMATS[format];
  if (!as) return wrong(`There is no format "${format}".`, `A log can be had as ${Object.keys(FORMATS).join(', ')}.`);
  const wanted = only.split(',').filter((name) => name !== '');
  const groups = GROUPS.filter(({ id }) => wanted.includes(id)).map(({ id }): Group => id);
  const unknown = wanted.find((name) => !groups.some((id) => id === name));
  if (unknown !== undefined) {
    return wrong(`There is no group "${unknown}".`, `Groups are ${GROUPS.map(({ id }) => id).join(', ')}.`);
  }
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    return { exit: 2, problem: describeProblem('sessionUnreadable', { detail: (error as Error).message }) };
  }
  const { entries, unreadable } = readLines(text);
  if (entries.length === 0) {
    const cause = 'There is no line in it that a session log has.';
    return { exit: 2, problem: describeProblem('sessionUnreadable', { cause, detail: file }) };
  }
  const filter = { groups: new Set(groups), board: null, site: null, search: searchFor(search) };
  const zone = (ms: number): number => -new Date(ms).getTimezoneOffset();
  const made = exported(as, { session: basename(file), layout: null, entries, filter, zone });
  const torn = unreadable.length === 0 ? [] : [`Left out: ${counted(unreadable.length, 'damaged line')}.`];
  if (output === undefined) {
    return {
      exit: 0,
      data: { ...made, unreadable },
      text: [made.text.replace(/\r?\n$/, ''), ...(as === 'txt' ? torn : [])],
    };
  }
  try {
    writeFileSync(output, made.text);
  } catch (error) {
    const next = 'Choose another place for the file.';
    const why = 'The folder may be missing or protected, or the disk full.';
    const detail = error instanceof Error ? error.message : String(error);
    return { exit: 1, problem: { code: 'notWritten', what: `${output} could not be written.`, why, next, detail } };
  }
  return { exit: 0, data: { file: output, unreadable }, text: [`Wrote ${output}.`, ...torn] };
}

function wrong(what: string, next: string): Report {
  const problem: Problem = { code: 'badArgument', what, why: 'It was mistyped, or is of another version.', next };
  return { exit: 2, problem };
}
