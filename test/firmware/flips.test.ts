/**
 * Every single bit of the running table and of the state of the sites turned
 * over, one at a time, on the shipped image: a sample here, each of them with
 * SOAK=1. AMBERWICK_SEED chooses the sample.
 */
import { describe, expect, it } from 'vitest';
import { seededDice } from '../fixtures/dice.ts';
import { commonCycle } from '../fixtures/sites/common-cycle.ts';
import { flicker } from '../fixtures/sites/flicker.ts';
import { levelCrossing } from '../fixtures/sites/level-crossing.ts';
import { pelican } from '../fixtures/sites/pelican.ts';
import { vehicleActuated } from '../fixtures/sites/vehicle-actuated.ts';
import { penmarrowBoard, withoutSweep } from '../timing/example.ts';
import { FlipRig, SITE_BYTES } from './flips.ts';

const whole = process.env.SOAK === '1';
const seed = Number(process.env.AMBERWICK_SEED ?? 1);
const patience = 36_000_000;

const example = withoutSweep(penmarrowBoard().table);
const tables = whole
  ? { example, vehicleActuated, pelican, levelCrossing, commonCycle, flicker }
  : { example, vehicleActuated, levelCrossing };
/** The lamps are compared for so long afterwards, ms: a turn of each site, or a part of it. */
const AFTER = whole ? 70_000 : 12_000;

/** Two bits of where the program of site 0 lies: with another program a site would plan the lamps of others. */
const PROGRAM_PLACE = [8 * 12, 8 * 13 + 2];

/** All of so many numbers, or some of them. */
function some(count: number, sample: number): number[] {
  const dice = seededDice(seed);
  if (whole || count <= sample) return Array.from({ length: count }, (_, i) => i);
  return Array.from({ length: sample }, () => dice.int(0, count - 1));
}

describe('a bit of the running table that turns over', () => {
  it(
    'is found within 1.2 s, wherever it is, and the kept table runs in its place',
    () => {
      const board = new FlipRig(example);
      const dice = seededDice(seed + 1);
      let slowest = 0;
      for (const bit of some(8 * board.image.length, 12)) {
        board.run(dice.int(1, 700));
        const ms = board.turnImage(bit >> 3, bit & 7);
        expect(ms, `bit ${bit & 7} of byte ${bit >> 3}`).not.toBeNull();
        expect([board.deeds, board.isWhole()], `bit ${bit & 7} of byte ${bit >> 3}`).toEqual([1, true]);
        slowest = Math.max(slowest, ms ?? 0);
      }
      console.info(`slowest ${slowest} ms; lit together: ${board.together.join(', ') || 'none'}`);
      expect(slowest).toBeLessThanOrEqual(1200);
      // No bit of it has left anything behind.
      expect(board.fresh(AFTER)).toEqual(new FlipRig(example).fresh(AFTER));
    },
    patience,
  );

  it('leaves the board dark where nothing is kept whole', () => {
    const board = new FlipRig(example);
    expect(board.rig.ask('dial', 0, 0, 20_000)).toBe('ok 20000');
    const record = 48;
    board.rig.board.eeprom.memory[record + 6] = 0;
    board.run(1000);
    expect(board.turnImage(100, 3)).toBeLessThanOrEqual(1200);
    expect([board.deeds, /1/.test(board.rig.lit)]).toEqual([2, false]);
    expect(board.rig.ask('guard')).toBe('ok 0 - 0 02 0 0');
    expect(board.rig.ask('sum', 'run')).toBe('no 5 -');
  });
});

describe('a bit of the state of a site that turns over', () => {
  it.each(Object.entries(tables))(
    'never lights conflicting lamps together, and the site goes on: %s',
    (_, table) => {
      const board = new FlipRig(table);
      const dice = seededDice(seed + 2);
      const sites = table.sites.length;
      const count = { fault: 0, on: 0 };
      for (const at of [...PROGRAM_PLACE, ...some(sites * SITE_BYTES * 8, 3)]) {
        const [site, byte, bit] = [Math.floor(at / (8 * SITE_BYTES)), Math.floor(at / 8) % SITE_BYTES, at & 7];
        const where = `bit ${bit} of byte ${byte} of site ${site}`;
        board.run(dice.int(1, 5000));
        const was = board.turnSite(site, byte, bit);
        count[was] += 1;
        expect(board.trouble(site), where).toBeNull();
        expect(board.together, where).toEqual([]);
        // So that three returns are never too many.
        if (was === 'fault') board.rig.ask('again', site);
      }
      console.info(`${sites} sites: ${count.fault} times at fault, ${count.on} times without`);
      expect(board.isWhole()).toBe(true);
      // Chance goes on from where it was.
      if (table !== flicker) expect(board.fresh(AFTER)).toEqual(new FlipRig(table).fresh(AFTER));
    },
    patience,
  );
});
