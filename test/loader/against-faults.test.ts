/**
 * The way to write firmware against every loader with bytes lost, doubled, changed and late, with memory
 * that is worn, and with answers that come too late.
 */
import { expect, it, vi } from 'vitest';
import type { LoaderKind } from '../../electron/host/loader/types.ts';
import { seededDice } from '../fixtures/dice.ts';
import { type Bench, bench, found, isDark, LOADER_KINDS } from './targets/drive.ts';
import { at, byDice } from './targets/faults.ts';

/** With SOAK set every byte and many more seeds, else a spread. */
const SOAK = Boolean(process.env.SOAK);
const SEEDS = SOAK ? 400 : 12;
if (SOAK) vi.setConfig({ testTimeout: 3_600_000 });

async function expectNew({ board, old, wanted, write }: Bench, where: string): Promise<void> {
  const outcome = await write();
  expect(outcome, where).toMatchObject({ ok: true });
  expect(found(board, old, wanted), where).toBe('new');
}

/** How many bytes go each way in an undisturbed job, and how many commands. */
async function undisturbed(loader: LoaderKind): Promise<{ toBoard: number; toHost: number; commands: number }> {
  const { board, write } = bench(loader);
  const seen = { toBoard: 0, toHost: 0 };
  board.setFaults({
    toBoard: (byte, index) => {
      seen.toBoard = index + 1;
      return { bytes: [byte] };
    },
    toHost: (byte, index) => {
      seen.toHost = index + 1;
      return { bytes: [byte] };
    },
  });
  expect((await write()).ok).toBe(true);
  return { ...seen, commands: board.commands.length };
}

for (const loader of LOADER_KINDS) {
  for (const way of ['toBoard', 'toHost'] as const) {
    for (const what of ['drop', 'repeat', 'flip', { lateMs: 700 }] as const) {
      const name = typeof what === 'string' ? what : 'late';
      it(`${loader}: one byte ${way} goes wrong (${name}), wherever it is, and the job is done all the same`, async () => {
        const total = (await undisturbed(loader))[way];
        const step = SOAK ? 1 : Math.ceil(total / 40);
        const quiet = (await undisturbed(loader)).commands;
        let noticed = 0;
        for (let index = 0; index < total; index += step) {
          const one = bench(loader);
          one.board.setFaults({ [way]: at([index], what) });
          const outcome = await one.write();
          const state = found(one.board, one.old, one.wanted);
          const where = `byte ${index} of ${total}: ${JSON.stringify(outcome)}`;
          // Before anything is written it may also say so and leave the board as it was.
          const isUntouched = !outcome.ok && 'leftAs' in outcome.error && outcome.error.leftAs === 'untouched';
          expect(state, where).toBe(isUntouched ? 'old' : 'new');
          expect(outcome.ok || isUntouched, where).toBe(true);
          if (one.board.commands.length !== quiet || !outcome.ok) noticed += 1;
          one.board.setFaults({});
          if (!outcome.ok) await expectNew(one, where);
        }
        // A doubled end byte or a byte that is only late may be nothing to worry about; most of it is not.
        expect(noticed).toBeGreaterThan(0);
      });
    }
  }

  it(`${loader}: with faults by dice it is done or says what is left, and what is left is true`, async () => {
    const ends: Record<string, number> = {};
    for (let seed = 1; seed <= SEEDS; seed++) {
      const dice = seededDice(seed);
      const oneIn = [3000, 1000, 300, 100][seed % 4] ?? 300;
      const one = bench(loader);
      const { board, old, wanted, write } = one;
      board.setFaults({ toBoard: byDice(dice, oneIn), toHost: byDice(dice, oneIn) });
      const outcome = await write();
      const state = found(board, old, wanted);
      const where = `seed ${seed}, one byte in ${oneIn}: ${JSON.stringify(outcome)}`;
      const end = outcome.ok ? 'done' : outcome.error.kind;
      ends[end] = (ends[end] ?? 0) + 1;
      if (outcome.ok) expect(state, where).toBe('new');
      else if (!('leftAs' in outcome.error) || outcome.error.leftAs === 'untouched') expect(state, where).toBe('old');
      // The line gets quiet again, and so does the job.
      board.setFaults({});
      await expectNew(one, where);
    }
    expect(ends.done ?? 0).toBeGreaterThan(SEEDS / 2);
  });

  it(`${loader}: the first answer comes after the host has asked again`, async () => {
    for (const lateFirstAnswerMs of [100, 200, 400, 800]) {
      const one = bench(loader);
      one.board.setFaults({ lateFirstAnswerMs });
      await expectNew(one, `${lateFirstAnswerMs} ms`);
    }
  });

  it(`${loader}: a page that is written wrong once is found and written again`, async () => {
    const pageBytes = loader === 'v2-115200' ? 256 : 128;
    for (const page of [0, pageBytes, 2 * pageBytes]) {
      const one = bench(loader);
      one.board.flash.misWrites.set(page, 1);
      await expectNew(one, `page at ${page}`);
    }
  });

  it(`${loader}: a worn byte is named, and the board is left dark`, async () => {
    const pageBytes = loader === 'v2-115200' ? 256 : 128;
    for (const byte of [pageBytes + 2, 3 * pageBytes - 6]) {
      const { board, wanted, write } = bench(loader);
      board.flash.worn.set(byte, wanted[byte] ?? 0xff);
      expect(await write()).toEqual({ ok: false, error: { kind: 'differs', at: byte, leftAs: 'empty' } });
      expect(isDark(board)).toBe(true);
    }
  });
}

it('v2: an answer lost at the last page does not cost the second one', async () => {
  // Sent again as it was, that message would erase the page after page 0.
  const whole = bench('v2-115200');
  whole.board.setFaults({});
  await whole.write();
  const total = whole.board.commands.length;
  for (let number = total - 7; number <= total; number++) {
    const one = bench('v2-115200');
    let lost = 0;
    one.board.setFaults({
      toHost: (byte) => {
        if (one.board.commands.length !== number) return { bytes: [byte] };
        lost += 1;
        return { bytes: [] };
      },
    });
    await expectNew(one, `answer ${number} of ${total}`);
    expect(lost).toBeGreaterThan(0);
  }
});
