/** The log as a text and as a table; the table is read back by somebody else's reader. */
import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import type { LogEntry } from '../../shared/workbench/contract.ts';
import { CSV_COLUMNS, csvOf } from '../../shared/workbench/story/csv.ts';
import { UTC } from '../../shared/workbench/story/moment.ts';
import { storyOf } from '../../shared/workbench/story/story.ts';
import { storyText, WIDTH } from '../../shared/workbench/story/text.ts';
import { keep, logOf, lost, nudge } from './build.ts';

/** Python's csv module, strict. */
function pythonReads(text: string): string[][] {
  const script = `
import csv, io, json, sys
raw = sys.stdin.buffer.read()
assert raw[:3] == b'\\xef\\xbb\\xbf'
print(json.dumps(list(csv.reader(io.StringIO(raw.decode('utf-8-sig'), newline=''), strict=True))))
`;
  const run = spawnSync('python3', ['-c', script], { input: text, encoding: 'utf8' });
  if (run.status !== 0) throw new Error(run.stderr);
  return JSON.parse(run.stdout);
}

const rowsOf = (entries: readonly LogEntry[]) =>
  entries.map((entry) => ({ session: '2026-11-30T19-00-00Z.jsonl', entry }));

it('the table is what another reader makes of it, cell by cell', () => {
  const entries = logOf(
    nudge(62, 18, 20),
    [70, 'remark', 'He said "too long",\nand left.'],
    [80, 'photo', 'Photo photos/cross.jpg: From the north.', { data: { path: 'photos/cross.jpg', from: 'layout' } }],
    [90, 'remark', 'He said it.', { data: { corrects: 2 } }],
    lost(100),
  );
  const [head, ...rows] = pythonReads(csvOf(rowsOf(entries), () => 60));
  expect(head).toEqual([
    ...['session', 'number', 'date', 'time', 'moment', 'kind', 'board', 'site', 'dial', 'from ms', 'to ms', 'board ms'],
    ...['text', 'photo', 'corrects', 'data', 'frames'],
  ]);
  expect(head).toEqual(CSV_COLUMNS);
  const cells = rows.map((row) => Object.fromEntries(row.map((value, at) => [head?.[at], value])));
  expect(cells[0]).toEqual({
    session: '2026-11-30T19-00-00Z.jsonl',
    number: '1',
    date: '2026-11-30',
    time: '20:01:02',
    moment: '2026-11-30T19:01:02.000Z',
    kind: 'nudge',
    board: 'Town board',
    site: 'Market Cross',
    dial: 'Market Cross green of Fore Street',
    'from ms': '18000',
    'to ms': '20000',
    'board ms': '',
    text: 'Changed Market Cross green of Fore Street from 18.0 s to 20.0 s on Town board.',
    photo: '',
    corrects: '',
    data: '{"site":0,"dial":0,"from":18000,"to":20000}',
    frames: '',
  });
  expect(cells[1]?.text).toBe('He said "too long",\nand left.');
  expect(cells[2]?.photo).toBe('photos/cross.jpg');
  expect(cells[3]?.corrects).toBe('2');
  expect(cells[4]?.frames).toBe('19:00:00.000 < closed');
});

it('no cell of the table can be taken for a formula', () => {
  const bad = [
    '=1+1',
    '+44 20',
    '-2',
    '@SUM(A1)',
    '\tx',
    '=HYPERLINK("http://x","y")',
    "'ok",
    'plain = fine',
    '=a\n,"b"',
  ];
  const entries = bad.map(
    (text, at): LogEntry => ({
      number: at + 1,
      at: '2026-11-30T19:00:00Z',
      kind: 'remark',
      text,
      names: { board: text, site: text, dial: text },
    }),
  );
  const rows = pythonReads(csvOf(rowsOf(entries), UTC)).slice(1);
  expect(rows).toHaveLength(bad.length);
  expect(rows.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
  // Nothing but the apostrophe was added.
  expect(rows.map((row) => row[12]?.replace(/^'(?=[=+\-@\t])/, ''))).toEqual(bad);
});

it('lines end as RFC 4180 has it, also when there is nothing to tell', () => {
  expect(csvOf([], UTC)).toBe(`\uFEFF${CSV_COLUMNS.join(',')}\r\n`);
  const [line = ''] = csvOf(rowsOf(logOf([0, 'start', 'Started.'])), UTC)
    .split('\r\n')
    .slice(1);
  expect(line.split(',')).toHaveLength(CSV_COLUMNS.length);
});

it('the story is a text with the date, chapters and times, wrapped at 100', () => {
  const long =
    'The amber of the north head looks a little short from the chair beside the station, and the postman waits for what feels like an hour.';
  const entries = logOf(
    nudge(0, 18, 19),
    nudge(240, 19, 22),
    keep(260),
    [18_100, 'remark', `${long}\nSecond line.`],
    [18_160, 'remark', `/home/ann/${'x'.repeat(150)}.jpg`],
  );
  const text = storyText('Session log of Penmarrow', storyOf(entries, UTC));
  expect(text.split('\n').filter((line) => line.length > WIDTH)).toEqual([]);
  expect(text).toBe(`Session log of Penmarrow
========================

Monday 30 November 2026

19:00 Tuned Market Cross and kept

19:00-19:04  Changed Market Cross green of Fore Street from 18.0 s to 22.0 s in two changes.
19:04        Kept on Town board: Market Cross green of Fore Street 22.0 s, 4 minutes after the first
             change.

Tuesday 1 December 2026

00:01 Wrote two notes

00:01        The amber of the north head looks a little short from the chair beside the station, and
             the postman waits for what feels like an hour.
             Second line.
00:02        /home/ann/${'x'.repeat(77)}
             ${'x'.repeat(73)}.jpg
`);
});

it('an empty story says so', () => {
  expect(storyText('Session log', [])).toBe('Session log\n===========\n\nNothing of this happened.\n');
});
