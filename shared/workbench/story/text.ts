/** The story as a text that any editor opens. */
import { clockText, dateText } from './moment.ts';
import type { Beat, Chapter } from './types.ts';

/** Longest line, characters. */
export const WIDTH = 100;
/** Room for `19:04-19:09  `. */
const INDENT = 13;

/** `heading`: what it is, one line. Ends with a newline. */
export function storyText(heading: string, chapters: readonly Chapter[]): string {
  const lines = [...wrapped(heading, 0), '='.repeat(Math.min(WIDTH, Math.max(1, heading.length)))];
  for (const { title, from, isNewDay, beats } of chapters) {
    if (isNewDay) lines.push('', dateText(from));
    lines.push('', ...wrapped(`${clockText(from)} ${title}`, 6), '');
    for (const beat of beats) lines.push(...beatLines(beat));
  }
  if (chapters.length === 0) lines.push('', 'Nothing of this happened.');
  return `${lines.join('\n')}\n`;
}

function beatLines(beat: Beat): string[] {
  const time = spanOf(beat).padEnd(INDENT);
  const text = wordsOf(beat);
  const [first = '', ...rest] = text.split('\n').flatMap((line) => wrapped(line, 0, WIDTH - INDENT));
  const day = beat.isNewDay ? ['', `${' '.repeat(INDENT)}${dateText(beat.from)}`, ''] : [];
  return [
    ...day,
    ...[`${time}${first}`, ...rest.map((line) => `${' '.repeat(INDENT)}${line}`)].map((it) => it.trimEnd()),
  ];
}

/** The sentence with what is said about its time. */
export function wordsOf({ text, more, kind }: Beat): string {
  if (more === '') return text;
  if (kind === 'remark' || kind === 'photo') return `${text} (${more})`;
  return text.endsWith('.') ? `${text.slice(0, -1)}, ${more}.` : `${text}, ${more}`;
}

/** `19:04`, or `19:04-19:09`. */
export function spanOf({ from, to }: Pick<Beat, 'from' | 'to'>): string {
  const [begin, end] = [clockText(from), clockText(to)];
  return begin === end ? begin : `${begin}-${end}`;
}

/** Lines of at most `width`; a word that is longer is broken. Later lines are indented. */
function wrapped(text: string, indent: number, width = WIDTH): string[] {
  const lines: string[] = [];
  let line = '';
  const begin = (): string => (lines.length === 0 ? '' : ' '.repeat(indent));
  const push = (): void => {
    lines.push(`${begin()}${line}`.trimEnd());
    line = '';
  };
  for (const word of text.split(/[ \t]+/)) {
    let rest = word;
    const room = (): number => width - begin().length;
    if (line !== '' && line.length + 1 + rest.length > room()) push();
    while (rest.length > room()) {
      line = rest.slice(0, room());
      rest = rest.slice(line.length);
      push();
    }
    line = line === '' ? rest : `${line} ${rest}`;
  }
  push();
  return lines;
}
