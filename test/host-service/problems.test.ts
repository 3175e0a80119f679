import { describe, expect, it } from 'vitest';
import { CODES } from '../../shared/link/vocabulary.ts';
import { describeProblem, PROBLEM_CODES } from '../../shared/workbench/problems.ts';
import { timeText } from '../../shared/workbench/words.ts';

const sentence = /^[A-Z"][^\n]*[.!?]$/;

describe('problems in words', () => {
  it.each(PROBLEM_CODES)('%s says what, why and what next, with and without circumstances', (code) => {
    const full = { board: 'Town board', port: 'ttyUSB0', group: 'dialout', wanted: 'ATmega328P', found: 'ATmega2560' };
    for (const circumstances of [{}, { ...full, refusal: 4, bytes: 500, room: 480, cause: 'Line 3 is cut off.' }]) {
      const { what, why, next } = describeProblem(code, circumstances);
      for (const text of [what, why, next]) {
        expect(text).toMatch(sentence);
        expect(text).not.toContain('undefined');
      }
      expect(new Set([what, why, next]).size).toBe(3);
    }
  });

  it('gives no two problems the same first sentence', () => {
    const first = PROBLEM_CODES.map((code) => describeProblem(code, { board: 'Town board', port: 'ttyUSB0' }).what);
    expect(new Set(first).size).toBe(PROBLEM_CODES.length);
  });

  it.each(CODES)('an upload refused with code $code carries the reason and the cure of the protocol', (entry) => {
    const refused = describeProblem('uploadRefused', { board: 'Town board', refusal: entry.code });
    expect(refused.what).toBe(`Town board did not take the layout: ${entry.reason}.`);
    expect(refused.next).toBe(entry.cure);
    expect(refused.detail).toBe(`code ${entry.code}`);
  });

  it('names the group of a port that may not be opened', () => {
    expect(describeProblem('portDenied', { port: '/dev/ttyUSB0', group: 'uucp' })).toEqual({
      code: 'portDenied',
      what: 'This user may not open /dev/ttyUSB0.',
      why: 'The port belongs to the group "uucp", and this user is not in it.',
      next: 'In a terminal: sudo usermod -aG uucp $USER. Then log out and in again.',
    });
  });
});

describe('times in words', () => {
  it.each([
    [0, '0.0 s'],
    [750, '0.75 s'],
    [18_000, '18.0 s'],
    [18_500, '18.5 s'],
    [59_990, '59.99 s'],
    [60_000, '1:00'],
    [65_000, '1:05'],
    [65_500, '1:05.5'],
    [3_600_000, '60:00'],
  ])('%i ms is %s', (ms, text) => {
    expect(timeText(ms)).toBe(text);
  });
});
