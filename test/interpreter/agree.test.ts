/**
 * The firmware's core, built for this machine under sanitizers, against the
 * reference interpreter: both written from firmware/PROTOCOL.md alone.
 * AMBERWICK_RUNS tables for each chip, from AMBERWICK_SEED on.
 */
import { describe, expect, it } from 'vitest';
import type { Chip } from '../../shared/table/format.ts';
import { buildHostCore } from '../firmware/host/build.ts';
import { commands, makeCase, printed, reference } from './both.ts';
import { runCore } from './core-process.ts';

const runs = Number(process.env.AMBERWICK_RUNS ?? 1000);
const seed = Number(process.env.AMBERWICK_SEED ?? 1);

describe('firmware and reference interpreter', () => {
  it.each(['atmega328p', 'atmega2560'] as const)(
    'tell the same story of random tables, nudges, demands and levels on the %s',
    async (chip: Chip) => {
      const cases = Array.from({ length: runs }, (_, index) => makeCase(seed + index, chip));
      console.info(`${chip}: seeds ${seed} to ${seed + runs - 1}`);
      const stories = runCore(await buildHostCore({ chip }), cases.map(commands));
      let events = 0;
      for (const made of cases) {
        const { value } = await stories.next();
        const expected = reference(made);
        events += expected.length;
        expect(printed(value ?? []), `seed ${made.seed}`).toEqual(expected);
      }
      await stories.return(undefined);
      // Random tables that do nothing would agree as well.
      expect(events / runs).toBeGreaterThan(20);
    },
    3_600_000,
  );
});
