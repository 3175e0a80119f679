/**
 * The cable is pulled after every message of the talk with each loader, before and after its answer, and
 * the job is called off at every step. The board then holds the old program whole, or is dark and takes no harm, or
 * holds the new one whole; and done again, it works.
 */
import { expect, it } from 'vitest';
import type { LoaderKind } from '../../electron/host/loader/types.ts';
import { type Bench, bench, drivenBy, found, isDark, LOADER_KINDS } from './targets/drive.ts';

/** Three pages are the least with a first, a middle and a last one. */
const PAGES = 3;

/** How many commands the loader hears in an undisturbed job. */
async function commandsOf(loader: LoaderKind): Promise<number> {
  const { board, write } = bench(loader, PAGES);
  board.setFaults({});
  expect(await write()).toMatchObject({ ok: true });
  return board.commands.length;
}

async function doneAgain({ board, old, wanted, write }: Bench): Promise<void> {
  board.setFaults({});
  if (!board.pluggedIn) board.replug();
  expect(await write()).toMatchObject({ ok: true, value: { bytes: wanted.length } });
  expect(found(board, old, wanted)).toBe('new');
  expect(drivenBy(board.chip, board.flash.bytes)).toEqual(['B1']);
  expect(board.target.eepromCommands).toBe(0);
}

it('mixtures of the two programs count as broken', () => {
  for (const loader of LOADER_KINDS) {
    const { board, old, wanted } = bench(loader, PAGES);
    const { pageBytes, bytes } = board.flash;
    expect(found(board, old, wanted)).toBe('old');
    // The new pages behind the old first one.
    bytes.set(wanted.subarray(pageBytes), pageBytes);
    expect(found(board, old, wanted)).toBe('broken');
    // A first page that is erased: the chip runs on into the second.
    bytes.fill(0xff, 0, pageBytes);
    expect(found(board, old, wanted)).toBe('broken');
    bytes.set(wanted);
    expect(found(board, old, wanted)).toBe('new');
  }
});

for (const loader of LOADER_KINDS) {
  it(`${loader}: pulled out after every message, and done again`, async () => {
    const total = await commandsOf(loader);
    const states: string[] = [];
    for (let number = 1; number <= total; number++) {
      for (const answered of [false, true]) {
        const one = bench(loader, PAGES);
        const { board, old, wanted, write } = one;
        board.setFaults({ afterCommand: { number, event: 'unplug', answered } });
        const outcome = await write();
        const state = found(board, old, wanted);
        states.push(state);
        const where = `message ${number} of ${total}, ${answered ? 'answered' : 'not answered'}: ${JSON.stringify(outcome)}`;
        expect(state, where).not.toBe('broken');
        if (outcome.ok) expect(state, where).toBe('new');
        else if (!('leftAs' in outcome.error) || outcome.error.leftAs === 'untouched') expect(state, where).toBe('old');
        await doneAgain(one);
      }
    }
    // Each of the three came about, and none comes back once it is over.
    expect([...new Set(states)]).toEqual(['old', 'parked', 'new']);
    expect(states).toEqual([...states].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)));
  });

  it(`${loader}: called off at every step, and done again`, async () => {
    let steps = 0;
    await bench(loader, PAGES).write({ onStage: () => steps++ });
    const left: string[] = [];
    for (let step = 1; step <= steps; step++) {
      const one = bench(loader, PAGES);
      const { board, old, wanted, write } = one;
      const abort = new AbortController();
      let seen = 0;
      const outcome = await write({
        signal: abort.signal,
        onStage: () => {
          seen += 1;
          if (seen === step) abort.abort();
        },
      });
      const state = found(board, old, wanted);
      const told = outcome.ok ? 'new' : outcome.error.kind === 'cancelled' ? outcome.error.leftAs : outcome.error.kind;
      left.push(told);
      expect(`${told}: ${state}`).toMatch(/^(new: new|untouched: old|empty: parked)$/);
      if (state === 'parked') expect(isDark(board)).toBe(true);
      // Whoever was called off has let go of the port.
      await doneAgain(one);
    }
    expect([...new Set(left)]).toEqual(['untouched', 'empty', 'new']);
  });

  it(`${loader}: hangs, or leaves, after any message: it is reset and the job goes on`, async () => {
    const total = await commandsOf(loader);
    const ends = new Set<string>();
    for (let number = 1; number <= total; number++) {
      for (const event of ['silence', 'timeout'] as const) {
        const one = bench(loader, PAGES);
        const { board, old, wanted, write } = one;
        board.setFaults({ afterCommand: { number, event, answered: number % 2 === 0 } });
        const outcome = await write();
        const where = `${event} at message ${number} of ${total}: ${JSON.stringify(outcome)}`;
        ends.add(outcome.ok ? 'done' : outcome.error.kind);
        // Before the first page it may also say that nothing was written, and leave it at that.
        const isUntouched = !outcome.ok && 'leftAs' in outcome.error && outcome.error.leftAs === 'untouched';
        expect(found(board, old, wanted), where).toBe(isUntouched ? 'old' : 'new');
        if (!outcome.ok) await doneAgain(one);
        else expect(board.target.eepromCommands).toBe(0);
      }
    }
    expect(ends).toContain('done');
  });
}

const ORDER = ['old', 'parked', 'new'];
