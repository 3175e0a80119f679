import { describe, expect, it } from 'vitest';
import { film } from '../fixtures/film.ts';
import { farSideCrossing } from '../fixtures/sites/far-side-crossing.ts';
import { levelCrossing, levelCrossing1965 } from '../fixtures/sites/level-crossing.ts';
import { pelican } from '../fixtures/sites/pelican.ts';
import { zebra } from '../fixtures/sites/zebra.ts';
import { detect, tap } from './acts.ts';

describe('a pelican', () => {
  const lines = film(pelican, 70_000, tap(3000, 0));

  it('keeps vehicles green for 20 s, then amber, red and the green man', () => {
    expect(lines.slice(0, 5)).toEqual([
      '1 ..G R. ....',
      '3020 ..G R. WAIT',
      '20000 .A. R. WAIT',
      '23000 R.. R. WAIT',
      '24000 R.. .G ....',
    ]);
  });

  it('flashes amber and green man together from the end of the steady green man', () => {
    expect(lines.slice(5, 9)).toEqual([
      '30000 .A. .G ....',
      '30400 ... .. ....',
      '30800 .A. .G ....',
      '31200 ... .. ....',
    ]);
  });

  it('flashes amber alone over the red man and goes to green without red and amber', () => {
    expect(lines.slice(-6)).toEqual([
      '38000 .A. R. ....',
      '38400 ... R. ....',
      '38800 .A. R. ....',
      '39200 ... R. ....',
      '39600 .A. R. ....',
      '40000 ..G R. ....',
    ]);
  });

  it('flashes on without a break when the flash becomes amber alone', () => {
    const flashes = lines
      .filter((line) => /^\d+ \.A\. (\.G|R\.) \.{4}$/.test(line))
      .map((line) => Number.parseInt(line, 10));
    expect(flashes).toEqual(Array.from({ length: 13 }, (_, index) => 30_000 + 800 * index));
  });
});

it('a far-side crossing has no flashing and starts with red and amber', () => {
  expect(film(farSideCrossing, 60_000, tap(10_000, 0))).toEqual([
    '1 ..G R. ....',
    '10020 .A. R. WAIT',
    '13020 R.. R. WAIT',
    '14020 R.. .G ....',
    '20020 R.. .. ....',
    '29020 R.. R. ....',
    '30020 RA. R. ....',
    '32020 ..G R. ....',
  ]);
});

describe('a level crossing', () => {
  it('shows amber for 3 s, then alternate reds at 400 ms while the train is near', () => {
    const lines = film(levelCrossing, 40_000, detect(5000, 25_000, 0));
    expect(lines.slice(0, 6)).toEqual(['5050 A..', '8050 .L.', '8450 ..R', '8850 .L.', '9250 ..R', '9650 .L.']);
    expect(lines.slice(-3)).toEqual(['24450 ..R', '24850 .L.', '25050 ...']);
    // Amber, 43 changes of the reds from 8,050 to 24,850, dark.
    expect(lines).toHaveLength(45);
  });

  it('before 1969 flashes red at once, and for 10 s at least', () => {
    const lines = film(levelCrossing1965, 40_000, detect(5000, 8000, 0));
    expect(lines.slice(0, 3)).toEqual(['5050 L.', '5450 .R', '5850 L.']);
    expect(lines.at(-1)).toBe('15050 ..');
  });

  it('notices a train after the line was quiet for two months', () => {
    const quiet = 60 * 86_400_000;
    const lines = film(levelCrossing, quiet + 4000, [[quiet, (board) => board.setRaw(0, true)]]);
    expect(lines).toEqual([
      `${(quiet + 50) % 2 ** 32} A..`,
      `${(quiet + 3050) % 2 ** 32} .L.`,
      `${(quiet + 3450) % 2 ** 32} ..R`,
      `${(quiet + 3850) % 2 ** 32} .L.`,
    ]);
  });
});

it('zebra beacons flash 750 ms together and alternately, and a pair of their own drifts apart', () => {
  // Sites in order: together, alternate, two beacons alone of which the second starts 200 ms late with 760 ms.
  expect(film(zebra, 4600)).toEqual([
    '1 B B B . B.',
    '200 B B B . BB',
    '751 . . . B .B',
    '960 . . . B ..',
    '1501 B B B . B.',
    '1720 B B B . BB',
    '2251 . . . B .B',
    '2480 . . . B ..',
    '3001 B B B . B.',
    '3240 B B B . BB',
    '3751 . . . B .B',
    '4000 . . . B ..',
    '4501 B B B . B.',
  ]);
});
