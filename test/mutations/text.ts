/** Mutations of the file as it lies on the disk: its tokens, and its bytes. */
import { chance, type Dice, pick, times } from '../fixtures/dice.ts';

/** Texts in quotes, numbers and words, signs, space. */
const TOKENS = /"(?:[^"\\]|\\.)*"|-?\d[\d.eE+-]*|[a-z]+|[{}[\]:,]|\s+/g;

const STRAY = [
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  '"',
  '1e999',
  '-',
  '01',
  '.5',
  'NaN',
  'undefined',
  '// why',
  "'",
  '\\',
  '\0',
];

/** `[text, what was done]`. */
export function mutatedTokens(dice: Dice, text: string): [string, string] {
  const tokens = text.match(TOKENS) ?? [text];
  const at = dice.int(0, tokens.length - 1);
  const ways: (() => string)[] = [
    () => {
      tokens.splice(at, dice.int(1, 4));
      return 'took out tokens';
    },
    () => {
      tokens.splice(at, 0, tokens[at] ?? '');
      return 'doubled a token';
    },
    () => {
      const other = dice.int(0, tokens.length - 1);
      [tokens[at], tokens[other]] = [tokens[other] ?? '', tokens[at] ?? ''];
      return 'exchanged tokens';
    },
    () => {
      tokens.splice(at, 1, pick(dice, STRAY));
      return 'put a stray sign for a token';
    },
    () => {
      tokens.splice(at, 0, pick(dice, STRAY));
      return 'put a stray sign between tokens';
    },
    () => {
      const many = dice.int(60, 30_000);
      tokens.splice(at, 1, '['.repeat(many), chance(dice, 50) ? ']'.repeat(many) : '');
      return `${many} brackets`;
    },
  ];
  const what = pick(dice, ways)();
  return [tokens.join(''), what];
}

/** The same file from another program, another computer, or a disk that failed. */
export function mutatedBytes(dice: Dice, text: string): [Uint8Array, string] {
  const bytes = [...Buffer.from(text)];
  const at = dice.int(0, bytes.length - 1);
  const ways: (() => [Uint8Array, string])[] = [
    () => {
      for (const place of times(dice.int(1, 5), () => dice.int(0, bytes.length - 1)))
        bytes[place] = (bytes[place] ?? 0) ^ (1 << dice.int(0, 7));
      return [Uint8Array.from(bytes), 'turned bits over'];
    },
    () => [Uint8Array.from(bytes.slice(0, at)), `cut off after ${at} bytes`],
    () => [Uint8Array.from([...bytes.slice(0, at), ...bytes.slice(at + dice.int(1, 512))]), 'lost a block'],
    () => [Uint8Array.from([...bytes.slice(0, at), ...Array(dice.int(1, 4096)).fill(0)]), 'ends in zeros'],
    () => {
      const from = dice.int(0, bytes.length - 1);
      return [Uint8Array.from([...bytes.slice(0, at), ...bytes.slice(from)]), 'two copies grown together'];
    },
    () => [Uint8Array.from(times(dice.int(0, 4096), () => dice.int(0, 255))), 'noise'],
    () => [Uint8Array.from([0xef, 0xbb, 0xbf, ...bytes]), 'with a byte order mark'],
    () => [Uint8Array.from([0xef, 0xbb, 0xbf, 0xef, 0xbb, 0xbf, ...bytes]), 'with two byte order marks'],
    () => [Buffer.from(text.replaceAll('\n', '\r\n')), 'with the line ends of another system'],
    () => [Buffer.from(text.replaceAll('\n', '\r')), 'with the line ends of an old system'],
    () => [Buffer.from(`\ufeff${text}`, 'utf16le'), 'in UTF-16'],
    () => [Buffer.from(`\ufeff${text}`, 'utf16le').swap16(), 'in UTF-16, the other way round'],
    () => [Buffer.from(text.replace('Penmarrow', 'Pénmarröw'), 'latin1'), 'in Latin-1'],
    () => [Uint8Array.from([0x1f, 0x8b, 8, 0, ...bytes]), 'says that it is packed'],
    () => [new Uint8Array(0), 'empty'],
  ];
  return pick(dice, ways)();
}
