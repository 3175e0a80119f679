/** The help: whole, searchable, and about each sheet. */
import { expect, test } from 'vitest';
import { COMMANDS } from '../../renderer/commands/all.ts';
import { chapterOf } from '../../renderer/help/about.ts';
import { CHAPTERS } from '../../renderer/help/chapters.ts';
import { countOf, searchHelp } from '../../renderer/help/search.ts';
import { SHEETS } from '../../renderer/views/sheets.ts';
import { PROBLEM_CODES } from '../../shared/workbench/problems.ts';

const chapter = (id: string) => CHAPTERS.find((it) => it.id === id);
const textOf = (id: string): string => JSON.stringify(chapter(id)?.blocks);

test('every sheet but the help has a chapter that is there', () => {
  for (const sheet of Object.keys(SHEETS) as (keyof typeof SHEETS)[]) {
    const id = chapterOf(sheet);
    if (sheet === 'help') expect(id).toBe(null);
    else expect(CHAPTERS.map((it) => it.id)).toContain(id);
  }
});

test('the keys are those of the commands, each of them', () => {
  const rows = chapter('keys')?.blocks.flatMap((block) => (block.is === 'terms' ? block.rows : [])) ?? [];
  const wanted = COMMANDS.filter(({ shortcut }) => shortcut !== null);
  expect(rows).toHaveLength(wanted.length);
  expect(rows.find(([, meaning]) => meaning.startsWith('Help.'))?.[0]).toBe('? or F1');
});

test('every problem that can be shown stands in the table of troubles', () => {
  const rows = chapter('trouble')?.blocks.flatMap((block) => (block.is === 'troubles' ? block.rows : [])) ?? [];
  expect(rows).toHaveLength(PROBLEM_CODES.length);
  for (const part of rows.flat()) expect(part).toMatch(/^\S.*[.?]$/);
});

test('the cautions speak of voltage, soldering, real traffic, local codes and licensed people', () => {
  for (const word of ['extra-low voltage', 'older', 'real traffic', 'local codes', 'licensed', 'Never mains'])
    expect(textOf('cautions')).toContain(word);
});

test('words are found in any order and by their beginnings, with the chapter they stand in', () => {
  const found = (query: string): string[] => searchHelp(query, CHAPTERS).map(({ id }) => id);
  expect(found('capac reset')).toContain('connecting');
  expect(found('solder fumes')).toEqual(['cautions']);
  expect(found('dialout')).toContain('connecting');
  expect(found('nothing of the kind')).toEqual([]);
  expect(found('')).toEqual([]);
  expect(countOf(searchHelp('silent', CHAPTERS))).toBeGreaterThan(0);
});

test('no text of the help is empty, and none is there twice in its chapter', () => {
  for (const { blocks } of CHAPTERS) {
    const texts = blocks.flatMap((block) =>
      'text' in block ? [block.text] : 'items' in block ? block.items : block.rows.map((row) => row.join(' ')),
    );
    expect(texts.filter((text, at) => text.trim() === '' || texts.indexOf(text) !== at)).toEqual([]);
  }
});
