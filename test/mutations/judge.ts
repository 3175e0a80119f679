/** What may come of any file at all: a clean load, or findings that a person can use. */
import { z } from 'zod';
import { openDocument } from '../../electron/host/service/document.ts';
import { readDocument } from '../../renderer/model/document.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { readJson } from '../../shared/layout/json.ts';
import { Pin } from '../../shared/layout/outputs.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import { Count } from '../../shared/layout/scalars.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { allocate } from '../../shared/layout/wiring/allocate.ts';
import { addChain } from '../../shared/layout/wiring/chain.ts';
import type { Edited } from '../../shared/layout/wiring/edit.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { outputsOf } from '../../shared/layout/wiring/outputs.ts';
import { shareHeads } from '../../shared/layout/wiring/share.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { encodeTable } from '../../shared/table/encode.ts';

/** What became of a file. */
export type Verdict = 'clean' | 'opens with findings' | 'refused';

/** As far as an output goes; a lamp may have fields that nobody knows. */
const SomeLamp = z.looseObject({ pin: Pin.optional(), bit: Count.optional() });

/** Longest text that still fits into a row of the list of findings. */
const LONGEST = 700;

/** As a browser reads a file that was chosen or dropped: its mark says which letters it is in. */
export function textOf(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const is16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  return new TextDecoder(is16 ? (first === 0xff ? 'utf-16le' : 'utf-16be') : 'utf-8').decode(bytes);
}

/** Throws where anything throws, and where a finding is no use to anybody. */
export function judge(name: string, text: string): Verdict {
  const { layout, boards, sites, findings } = readDocument({ name, text, version: 1 });
  // Of a newer file some sites may be left out: what is worked out of the rest counts those that are left.
  const texts = layout ? [text, writeLayout(layout)] : [text];
  for (const finding of findings) judgeFinding(finding, texts);
  const host = openDocument(name, text, 1);
  if (host.ok !== (layout !== null)) throw new Error('the panel and the host do not agree on whether this is a layout');
  if (layout === null) {
    if (!findings.some(({ severity }) => severity === 'error')) throw new Error('refused without an error');
    if (!host.ok && !host.problem.why) throw new Error('the host refuses without saying why');
    return 'refused';
  }
  for (const board of boards) for (const finding of encodeTable(board.table).findings) judgeFinding(finding, texts);
  for (const site of sites)
    if (!layout.sites[site.index] || !site.program) throw new Error(`no program for ${site.id}`);
  judgeWriting(layout);
  judgeWiring(layout);
  return findings.length === 0 ? 'clean' : 'opens with findings';
}

/** What was understood can be written and is read back the same. */
function judgeWriting(layout: Layout): void {
  const text = writeLayout(layout);
  const json = readJson(text);
  const again = json.ok ? readLayout(json.value).layout : null;
  if (!again || writeLayout(again) !== text) throw new Error('what was written is not read back the same');
}

/** Whatever the file holds besides, a lamp is what the schema calls one; an edit of the wiring is done, or says why not. */
function judgeWiring(layout: Layout): void {
  const texts = [writeLayout(layout)];
  const judgeEdit = (edit: Edited): void => {
    if ('findings' in edit) for (const finding of edit.findings) judgeFinding(finding, texts);
    else judgeWriting(edit.layout);
  };
  for (const { id } of layout.boards) {
    for (const { path, lamp, name } of lampPlaces(layout, id)) {
      if (!SomeLamp.safeParse(lamp).success) throw new Error(`no lamp: ${JSON.stringify(lamp)} at ${path} (${name})`);
    }
    outputsOf(layout, id);
    judgeEdit(allocate(layout, id));
    judgeEdit(addChain(layout, id, { sites: layout.sites.map((site) => site.id) }));
  }
  for (const { id } of layout.sites) judgeEdit(shareHeads(layout, id));
}

function judgeFinding(finding: Finding, texts: readonly string[]): void {
  const told = JSON.stringify(finding);
  for (const part of ['what', 'why', 'cure'] as const) {
    const words = finding[part];
    if (!/\S/.test(words) || !/[.…!?"]$/.test(words.trimEnd())) throw new Error(`no sentence in ${part}: ${told}`);
    if (words.length > LONGEST) throw new Error(`${part} has ${words.length} letters: ${told.slice(0, 2000)}`);
    for (const slip of ['undefined', '[object', 'NaN'])
      if (words.includes(slip) && !texts.some((text) => text.includes(slip)))
        throw new Error(`"${slip}" in ${part}: ${told}`);
  }
  if (!/^[a-z][a-z0-9-]*$/.test(finding.code)) throw new Error(`no code: ${told}`);
  if (!texts.some((text) => standsSomewhere(finding.path, text)))
    throw new Error(`a path that leads nowhere: ${told.slice(0, 2000)}`);
}

/** The path leads to something in the file, or to a field that something in the file should have. */
function standsSomewhere(path: string, text: string): boolean {
  if (path === '') return true;
  const json = readJson(text);
  if (!json.ok) return false;
  return leads(json.value, path);
}

/** Names may hold dots and brackets themselves: every way to read the path is tried. */
function leads(value: unknown, rest: string): boolean {
  if (rest === '') return true;
  if (typeof value !== 'object' || value === null) return false;
  const holder = value as Record<string, unknown>;
  const index = /^\[(\d+)\]/.exec(rest);
  if (index && Array.isArray(value) && Number(index[1]) < value.length)
    return leads(holder[index[1] ?? ''], rest.slice(index[0].length));
  const name = rest.replace(/^\./, '');
  const keys = Object.keys(holder).filter((key) => name.startsWith(key) && /^($|[.[])/.test(name.slice(key.length)));
  if (keys.some((key) => leads(holder[key], name.slice(key.length)))) return true;
  return !Array.isArray(value) && /^[^.[\]]+$/.test(name);
}
