import { describe, expect, it } from 'vitest';
import { film } from '../fixtures/film.ts';
import { colourLight } from '../fixtures/sites/colour-light.ts';
import { commonCycle, syncFollower, syncLeader } from '../fixtures/sites/common-cycle.ts';
import { directionIndicator } from '../fixtures/sites/direction-indicator.ts';
import { emergencyBeacons } from '../fixtures/sites/emergency-beacons.ts';
import { flicker } from '../fixtures/sites/flicker.ts';
import { streetLamps } from '../fixtures/sites/street-lamps.ts';
import { detect, tap } from './acts.ts';

it('colour-light signals follow the sections ahead, each in one step', () => {
  const lines = film(colourLight, 7000, [
    [1000, (board) => board.setRaw(0, true)],
    [2000, (board) => board.setRaw(1, true)],
    [3000, (board) => board.setRaw(0, false)],
    [4000, (board) => board.setRaw(2, true)],
    [5000, (board) => board.setRaw(1, false)],
    [6000, (board) => board.setRaw(2, false)],
  ]);
  expect(lines).toEqual([
    '1 G. G.. .G..',
    // The train is in the next section: red everywhere; what is further ahead changes nothing.
    '1010 .R ..R ...R',
    '3010 G. .Y. ..Y.',
    '5010 G. G.. Y.Y.',
    '6010 G. G.. .G..',
  ]);
});

it('street lamps come on one by one at dusk and go out together', () => {
  // Draws of site 0 with 50 to 400 tens: 339, 381 and 81.
  expect(film(streetLamps, 80_000, detect(4000, 64_000, 0))).toEqual([
    '4200 W... W..',
    '5700 W... WX.',
    '7200 W... WXY',
    '7590 W.Y. WXY',
    '11400 WXY. WXY',
    '12210 WXYZ WXY',
    '64200 .... ...',
  ]);
});

it('direction indicators flash left, both, right, without a break in the rhythm', () => {
  const lines = film(directionIndicator, 6000, [
    [1000, (board) => board.setRaw(0, true)],
    [3000, (board) => board.setRaw(1, true)],
    [4500, (board) => board.setRaw(0, false)],
    [5500, (board) => board.setRaw(1, false)],
  ]);
  expect(lines).toEqual([
    '1030 L.',
    '1370 ..',
    '1710 L.',
    '2050 ..',
    '2390 L.',
    '2730 ..',
    '3070 LR',
    '3410 ..',
    '3750 LR',
    '4090 ..',
    '4430 LR',
    '4530 .R',
    '4770 ..',
    '5110 .R',
    '5450 ..',
  ]);
});

it('emergency beacons alternate at 3 Hz beside a double flash', () => {
  expect(film(emergencyBeacons, 660).slice(0, 12)).toEqual([
    '1 L. L.',
    '40 L. ..',
    '80 L. L.',
    '120 L. ..',
    '161 .R ..',
    '240 .R .R',
    '280 .R ..',
    '320 .R .R',
    '331 L. .R',
    '360 L. ..',
    '480 L. L.',
    '491 .R L.',
  ]);
});

describe('random flicker', () => {
  it('is the same on every run', () => {
    expect(film(flicker, 60_000)).toEqual(film(flicker, 60_000));
  });

  it('follows the seeds: first changes of fire and welder', () => {
    // Fire draws D30F and F1A5: 210 and 240 ms; the welder draws A3FA: 70 ms.
    expect(film(flicker, 400).slice(0, 8)).toEqual([
      '1 R.. W',
      '70 R.. .',
      '130 R.. W',
      '210 RO. .',
      '230 RO. W',
      '260 RO. .',
      '300 RO. W',
      '380 RO. .',
    ]);
  });
});

describe('a common cycle', () => {
  it('ends the side greens 20 s apart, cycle after cycle', () => {
    const lines = film(commonCycle, 300_000);
    const ends = (lines.join('\n').match(/^\d+ (?=.*\.A\.)/gm) ?? []).map(Number);
    expect(ends.slice(0, 6)).toEqual([10_001, 30_001, 40_001, 50_001, 60_001, 70_001]);
    expect(ends.slice(-1)).toEqual([290_001]);
    expect(lines[0]).toBe('1 R.. ..G R.. ..G R.. ..G');
    expect(lines[1]).toBe('10001 R.. .A. R.. ..G R.. ..G');
  });

  it('gives a pulse of 200 ms at each beginning', () => {
    const lines = film(syncLeader, 121_000);
    const pulses = lines.filter((line, index) => line.endsWith('sync') !== (lines[index - 1] ?? '').endsWith('sync'));
    expect(pulses.map((line) => Number.parseInt(line, 10))).toEqual([1, 201, 60_001, 60_201, 120_001, 120_201]);
  });

  it('a follower counts from the pulse, its debounce taken off, and no pulse makes it skip', () => {
    // Pulses rise at 5,000 and, 100 ms late by its own clock, at 65,100.
    expect(film(syncFollower, 100_000, [...tap(5000, 0), ...tap(65_100, 0)])).toEqual([
      '1 R.. ..G',
      '35000 R.. .A.',
      '38000 R.. R..',
      '39000 RA. R..',
      '41000 ..G R..',
      '65000 .A. R..',
      '68000 R.. R..',
      '69000 R.. RA.',
      '71000 R.. ..G',
      '95100 R.. .A.',
      '98100 R.. R..',
      '99100 RA. R..',
    ]);
  });
});
