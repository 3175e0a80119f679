import { describe, expect, it } from 'vitest';
import { imageShape } from '../../../shared/table/shape.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import { answers, changes, events, hex, hex4, imageOf, play, upload } from './play.ts';

const image = imageOf(twoStage);
// Header, six lamps; in the program: its head, five dials, two aspects, one pair.
const firstRow = 12 + 6 * 2 + 8 + 5 * 4 + 2 * 2 + 2;

describe('the watch over the running table', () => {
  it('puts a site to its fault aspect when both greens are about to be lit, and says so', async () => {
    // The states of the first row become green against green in the running image alone.
    const lines = await play([
      `table ${hex(image)}`,
      'company 1',
      'ask tell 1',
      'run 10',
      `poke ${firstRow + 1} 1004`,
      'ask again 0',
      'run 100',
      'ask site 0',
      'ask again 0',
      'run 1',
      `poke ${firstRow + 1} 1004`,
      'ask state',
    ]);
    expect(lines).toContain('f 11 0 1');
    expect(events(lines)).toContain('fault 11 0 1');
    // Dark, and never both greens, not even for one tick.
    expect(changes(lines)).toEqual(['1 0C', '11 00']);
    expect(answers(lines)).toEqual([
      'ok',
      'ok',
      expect.stringMatching(/^ok 0 \d+ 02 1$/),
      'ok',
      'ok 0 power 5006 400 run 91 0 1',
    ]);
  });

  it('puts a site to its fault aspect when a row is none', async () => {
    const lines = await play([
      `table ${hex(image)}`,
      'company 1',
      'run 17990',
      // Just before the row comes, or the guard would have found it first.
      `poke ${firstRow + 3} 0F`,
      'run 20',
      'ask site 0',
    ]);
    expect(lines).toContain('f 18000 0 3');
    expect(changes(lines)).toEqual(['1 0C', '18000 00']);
  });
});

describe('the sweep', () => {
  const swept = imageOf({ ...twoStage, sweep: 100 });

  it('lights one lamp after the other at power-on, then the table starts', async () => {
    const lines = await play([`table ${hex(swept)}`, 'run 700']);
    expect(changes(lines)).toEqual(['1 01', '101 02', '201 04', '301 08', '401 10', '501 20', '601 0C']);
  });

  it('is left out after a reset and when a table is started by the host', async () => {
    const reset = await play([`table ${hex(swept)}`, 'off', 'say reset', 'on 2', 'run 700']);
    expect(changes(reset)).toEqual(['1 0C']);
    const started = await play(['eeprom blank', 'on', ...upload(swept), 'run 700']);
    expect(answers(started).at(-1)).toBe(`ok ${hex4(imageShape(swept) ?? 0)}`);
    expect(changes(started).map((change) => change.split(' ')[1])).toEqual(['0C']);
  });
});
