import { describe, expect, it } from 'vitest';
import { film } from '../fixtures/film.ts';
import { earlyCutOff } from '../fixtures/sites/early-cut-off.ts';
import { filterArrow } from '../fixtures/sites/filter-arrow.ts';
import { pedestrianStage } from '../fixtures/sites/pedestrian-stage.ts';
import { shuttle } from '../fixtures/sites/shuttle.ts';
import { twoStage } from '../fixtures/sites/two-stage.ts';
import { vehicleActuated } from '../fixtures/sites/vehicle-actuated.ts';
import { detect, tap } from './acts.ts';

describe('a two-stage junction', () => {
  it('goes through its eight rows and begins again after 42 s', () => {
    expect(film(twoStage, 60_000)).toEqual([
      '1 ..G R..',
      '18000 .A. R..',
      '21000 R.. R..',
      '22000 R.. RA.',
      '24000 R.. ..G',
      '36000 R.. .A.',
      '39000 R.. R..',
      '40000 RA. R..',
      '42000 ..G R..',
      '60000 .A. R..',
    ]);
  });

  it('does not drift: after a thousand cycles green begins at 42,000 s', () => {
    const lines = film(twoStage, 42_000_000);
    expect(lines.at(-1)).toBe('42000000 ..G R..');
    expect(lines).toHaveLength(1 + 8 * 1000);
  });
});

it('an early cut-off stops the western end first', () => {
  expect(film(earlyCutOff, 47_000)).toEqual([
    '1 ..G ..G R..',
    '15000 ..G .A. R..',
    '18000 ..G R.. R..',
    '25000 .A. R.. R..',
    '28000 R.. R.. R..',
    '29000 R.. R.. RA.',
    '31000 R.. R.. ..G',
    '41000 R.. R.. .A.',
    '44000 R.. R.. R..',
    '45000 RA. RA. R..',
    '47000 ..G ..G R..',
  ]);
});

it('a filter arrow is lit before the full green and through it', () => {
  expect(film(filterArrow, 41_000)).toEqual([
    '1 ..GF R..',
    '16000 .A.. R..',
    '19000 R... R..',
    '20000 R... RA.',
    '22000 R... ..G',
    '30000 R..F ..G',
    '35000 R..F .A.',
    '38000 R..F R..',
    '39000 RA.F R..',
    '41000 ..GF R..',
  ]);
});

describe('a pedestrian stage on demand', () => {
  it('is skipped when nobody presses', () => {
    expect(film(pedestrianStage, 30_000)).toEqual([
      '1 ..G R.. R. ....',
      '10000 .A. R.. R. ....',
      '13000 R.. R.. R. ....',
      '14000 R.. RA. R. ....',
      '16000 R.. ..G R. ....',
      '24000 R.. .A. R. ....',
      '27000 R.. R.. R. ....',
      '28000 RA. R.. R. ....',
      '30000 ..G R.. R. ....',
    ]);
  });

  it('comes once after a press, which lights WAIT until it is served', () => {
    expect(film(pedestrianStage, 70_000, tap(5000, 0))).toEqual([
      '1 ..G R.. R. ....',
      // Debounced for 20 ms.
      '5020 ..G R.. R. WAIT',
      '10000 .A. R.. R. WAIT',
      '13000 R.. R.. R. WAIT',
      '14000 R.. RA. R. WAIT',
      '16000 R.. ..G R. WAIT',
      '24000 R.. .A. R. WAIT',
      '27000 R.. R.. R. WAIT',
      '28000 R.. R.. .G ....',
      '34000 R.. R.. .. ....',
      '39000 RA. R.. R. ....',
      '41000 ..G R.. R. ....',
      '51000 .A. R.. R. ....',
      '54000 R.. R.. R. ....',
      '55000 R.. RA. R. ....',
      '57000 R.. ..G R. ....',
      '65000 R.. .A. R. ....',
      '68000 R.. R.. R. ....',
      '69000 RA. R.. R. ....',
    ]);
  });
});

describe('a vehicle-actuated junction', () => {
  it('rests in green while nobody waits on the other road', () => {
    expect(film(vehicleActuated, 3_600_000)).toEqual(['1 ..G R..']);
  });

  it('changes at once for a demand after minimum and gap', () => {
    expect(film(vehicleActuated, 60_000, tap(20_000, 1))).toEqual([
      '1 ..G R..',
      '20001 .A. R..',
      '23001 R.. R..',
      '24001 R.. RA.',
      '26001 R.. ..G',
    ]);
  });

  it('keeps the minimum green of 7 s for a demand in its third second', () => {
    expect(film(vehicleActuated, 10_000, tap(3000, 1))).toEqual(['1 ..G R..', '7000 .A. R..', '10000 R.. R..']);
  });

  it('waits for a gap of 1.5 s behind the last vehicle', () => {
    // A queue until 25.0 s: active for the last time in tick 25,000, lapsed 1,500 ms later.
    const acts = [...detect(18_000, 25_000, 0), ...tap(20_000, 1)];
    const inOrder = acts.sort(([a], [b]) => a - b);
    expect(film(vehicleActuated, 27_000, inOrder)).toEqual(['1 ..G R..', '26500 .A. R..']);
  });

  it('cuts endless traffic off 20 s after the opposing demand, and remembers it', () => {
    const acts = [...detect(1000, 50_000, 0), ...tap(20_000, 1)].sort(([a], [b]) => a - b);
    expect(film(vehicleActuated, 66_000, acts)).toEqual([
      '1 ..G R..',
      // Opposed since tick 20,001.
      '40001 .A. R..',
      '43001 R.. R..',
      '44001 R.. RA.',
      '46001 R.. ..G',
      // The queue is opposing now; minimum green and gap have passed at 53,001.
      '53001 R.. .A.',
      '56001 R.. R..',
      '57001 RA. R..',
      '59001 ..G R..',
    ]);
  });
});

describe('a road-works shuttle', () => {
  it('is red at both ends when idle', () => {
    expect(film(shuttle, 3_600_000)).toEqual(['1 R.. R..']);
  });

  it('serves one end, clears the works, then serves the other, then rests', () => {
    expect(film(shuttle, 120_000, [...tap(4000, 0), ...tap(15_000, 1)])).toEqual([
      '1 R.. R..',
      '4001 RA. R..',
      '6001 ..G R..',
      '18001 .A. R..',
      '21001 R.. R..',
      '29001 R.. RA.',
      '31001 R.. ..G',
      '43001 R.. .A.',
      '46001 R.. R..',
    ]);
  });
});
