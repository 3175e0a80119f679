import { expect, test } from 'vitest';
import { BoardClock, since } from '../../renderer/model/clock.ts';
import { countdown, parseTime, spokenTime, stepped } from '../../renderer/model/time.ts';

test('typed times are read the way people write them', () => {
  const typed = ['18', '18.5', '18,5', '18.5 s', ' 18 seconds ', '.75', '0.75s', '1:05', '1:05.5', '10:00'];
  expect(typed.map(parseTime)).toEqual([18000, 18500, 18500, 18500, 18000, 750, 750, 65000, 65500, 600000]);
});

test('what is no time is refused, not guessed', () => {
  expect(['', 'soon', '18 m', '1:5', '1:65', '-3', '1e3', '1:2:3', '18..5'].map(parseTime)).toEqual(
    Array(9).fill(null),
  );
});

test('typed times fall on the hundredths that a board counts in', () => {
  expect(parseTime('3.14159')).toBe(3140);
  expect(parseTime('0.755')).toBe(760);
});

test('a countdown shows tenths below a minute and reaches zero only at the end', () => {
  expect(countdown(18_000)).toEqual({ figure: '18.0', unit: 's' });
  expect(countdown(17_901)).toEqual({ figure: '18.0', unit: 's' });
  expect(countdown(1)).toEqual({ figure: '0.1', unit: 's' });
  expect(countdown(0)).toEqual({ figure: '0.0', unit: 's' });
  expect(countdown(59_901)).toEqual({ figure: '1:00', unit: '' });
  expect(countdown(65_000)).toEqual({ figure: '1:05', unit: '' });
  expect(countdown(64_001)).toEqual({ figure: '1:05', unit: '' });
});

test('screen readers hear words', () => {
  expect([spokenTime(18_500), spokenTime(60_000), spokenTime(125_000)]).toEqual([
    '18.5 seconds',
    '1 minute',
    '2 minutes 5 seconds',
  ]);
});

test('steps are whole seconds for greens, fine for flashes, and finer on the way down', () => {
  const wide = { min: 100, max: 120_000 };
  expect([stepped(18_000, 1, wide), stepped(18_000, -1, wide), stepped(18_000, 5, wide)]).toEqual([
    19000, 17000, 23000,
  ]);
  expect([stepped(3_000, 1, wide), stepped(3_000, -1, wide)]).toEqual([3500, 2500]);
  expect([stepped(750, 1, wide), stepped(750, -1, wide)]).toEqual([800, 700]);
  expect([stepped(10_000, -1, wide), stepped(10_000, 1, wide)]).toEqual([9500, 11000]);
});

test('a step from between two marks goes to the next mark', () => {
  const wide = { min: 100, max: 120_000 };
  expect([stepped(18_300, 1, wide), stepped(18_300, -1, wide)]).toEqual([19000, 18000]);
});

test('steps stop at the limits of the dial', () => {
  expect(stepped(118_000, 5, { min: 2_000, max: 120_000 })).toBe(120_000);
  expect(stepped(2_500, -5, { min: 2_000, max: 120_000 })).toBe(2_000);
});

test('board time goes on between reports at the pace of the board', () => {
  const clock = new BoardClock();
  clock.report(10_000, 0, 1);
  expect([clock.at(0), clock.at(250), clock.at(500)]).toEqual([10_000, 10_250, 10_500]);
  clock.report(10_500, 500, 10);
  expect(clock.at(600)).toBe(11_500);
});

test('board time does not run backwards when a report is a little behind', () => {
  const clock = new BoardClock();
  clock.report(10_000, 0, 1);
  expect(clock.at(500)).toBe(10_500);
  clock.report(10_480, 500, 1);
  expect([clock.at(500), clock.at(510), clock.at(540)]).toEqual([10_500, 10_500, 10_520]);
});

test('an event ahead of the guess moves it on, one behind does not hold it back', () => {
  const clock = new BoardClock();
  clock.report(10_000, 0, 1);
  clock.note(10_900, 500);
  expect(clock.at(500)).toBe(10_900);
  clock.note(10_100, 600);
  expect(clock.at(600)).toBe(11_000);
});

test('a board that says nothing for three seconds is not guessed on for ever', () => {
  const clock = new BoardClock();
  clock.report(10_000, 0, 1);
  expect(clock.at(60_000)).toBe(13_000);
});

test('a board that starts anew may be at an earlier time', () => {
  const clock = new BoardClock();
  clock.report(900_000, 0, 1);
  expect(clock.at(100)).toBe(900_100);
  clock.reset(5, 200);
  expect(clock.at(200)).toBe(5);
});

test('the wrap of the 32-bit clock is of no consequence', () => {
  const clock = new BoardClock();
  clock.report(2 ** 32 - 300, 0, 1);
  expect(clock.at(0)).toBe(2 ** 32 - 300);
  expect(clock.at(500)).toBe(200);
  expect(since(clock.at(500), 2 ** 32 - 300)).toBe(500);
});
