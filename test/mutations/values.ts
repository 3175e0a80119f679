/** Values that nobody should write into a layout, and some people or programs do. */
import { chance, type Dice, pick, times } from '../fixtures/dice.ts';
import { everyText } from './tree.ts';

const NUMBERS = [0, -0, -1, 1, 0.001, 0.005, 1.005, 2.5, 17, 255, 256, 1e3, 65535, 32768.5, 1e6, 1e12, 1e21, -1e12];
const EXTREMES = [Number.MAX_VALUE, Number.MIN_VALUE, -Number.MAX_VALUE, Number.MAX_SAFE_INTEGER + 1];

const TEXTS = [
  '',
  ' ',
  'NaN',
  'Infinity',
  'null',
  '18',
  '18 s',
  '1e5',
  'D13',
  'A0',
  'D99',
  'D2 ',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '../../etc',
  '<b>Quay</b>',
  '<img src=x onerror=alert(1)>',
  '%s$1',
  'Ye Olde\u0000Hill',
  'Quay\nHill\r\nOver\tthere',
  '\u202eliaT eht fo daoR\u202c',
  'e\u0301'.repeat(300),
  '🚦'.repeat(40),
  '\ud83d',
  '\u2028\u2029\ufeff',
  'Llanfair'.repeat(500),
] as const;

/** Names of fields that a program written without care would trip over. */
export const NAMES = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'valueOf',
  'hasOwnProperty',
  'length',
  'id',
  'kind',
  '',
  ' ',
  '0',
  '-1',
  'a.b[0]',
  'x'.repeat(3000),
  '🚦',
  'Green',
] as const;

/** A value of another kind, an odd one of the same kind, or one from elsewhere in the document. */
export function oddValue(dice: Dice, document: unknown, was: unknown): unknown {
  const ways: (() => unknown)[] = [
    () => pick(dice, NUMBERS),
    () => pick(dice, EXTREMES),
    () => pick(dice, TEXTS),
    () => pick(dice, [null, true, false]),
    () => pick(dice, [[], {}, [[]], [null], [{}], { length: 5 }]),
    () => deep(dice.int(10, 70)),
    () => elsewhere(dice, document),
  ];
  if (typeof was === 'number') {
    ways.push(() => -was);
    ways.push(() => was * pick(dice, [0, 0.001, 0.5, 3, 1000, 1e9]));
    ways.push(() => was + pick(dice, [-0.001, 0.001, 1, -1]));
    ways.push(() => String(was));
  }
  if (typeof was === 'string') {
    ways.push(() => elsewhere(dice, document));
    ways.push(() => was + pick(dice, TEXTS));
    ways.push(() => was.toUpperCase());
    ways.push(() => was.slice(1));
    ways.push(() => [was]);
  }
  if (Array.isArray(was)) ways.push(() => ({ ...was }));
  return pick(dice, ways)();
}

/** A text that stands somewhere in the document: an id where another one is meant. */
function elsewhere(dice: Dice, document: unknown): unknown {
  const texts = everyText(document);
  return texts.length > 0 ? pick(dice, texts) : '';
}

function deep(levels: number): unknown {
  return times(levels, (level) => level).reduce<unknown>((inner, level) => (level % 2 ? [inner] : { a: inner }), 1);
}

/** As people write them: mostly the odd values above, at times something long. */
export function oddText(dice: Dice): string {
  return chance(dice, 5) ? 'Long Road '.repeat(10_000) : pick(dice, TEXTS);
}
