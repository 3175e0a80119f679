/**
 * The cable is pulled in the middle of a message, after every byte. Two loaders gather a page before they touch
 * the flash. The newer small one erases it as soon as it hears where the page goes, so a cable pulled while
 * page 0 is on its way leaves it erased; the chip then runs on into the second page.
 */
import { expect, it, vi } from 'vitest';
import type { LoaderKind } from '../../electron/host/loader/types.ts';
import { type Bench, bench, found, LOADER_KINDS } from './targets/drive.ts';

/** Every byte with SOAK set, else a spread of them. */
const EVERY = process.env.SOAK ? 1 : 11;
if (EVERY === 1) vi.setConfig({ testTimeout: 3_600_000 });

/** What is left after so many bytes, for each number tried. */
async function cuts(loader: LoaderKind, landing: boolean, visit: (one: Bench, byte: number) => Promise<void>) {
  for (let byte = 1; ; byte += EVERY) {
    const one = bench(loader, 3, { landing });
    one.board.setFaults({ afterByte: { number: byte, event: 'unplug' } });
    const outcome = await one.write();
    if (outcome.ok) return;
    expect(outcome.error.kind).toBe('ended');
    await visit(one, byte);
  }
}

async function doneAgain({ board, old, wanted, write }: Bench): Promise<void> {
  board.setFaults({});
  board.replug();
  expect(await write()).toMatchObject({ ok: true });
  expect(found(board, old, wanted)).toBe('new');
}

for (const loader of LOADER_KINDS) {
  it(`${loader}: pulled out after any byte, a first page that can be fallen through to is all it takes`, async () => {
    const states = new Set<string>();
    await cuts(loader, true, async (one) => {
      states.add(found(one.board, one.old, one.wanted));
      await doneAgain(one);
    });
    expect([...states].sort()).toEqual(['new', 'old', 'parked']);
  });
}

for (const loader of ['v1-57600', 'v2-115200'] as const) {
  it(`${loader}: pulled out after any byte, no mixture ever runs`, async () => {
    await cuts(loader, false, async ({ board, old, wanted }, byte) => {
      expect(found(board, old, wanted), `after byte ${byte}`).not.toBe('broken');
    });
  });
}

it('v1-115200: a mixture can run only while page 0 itself is on its way, and then page 0 is erased', async () => {
  let mixtures = 0;
  await cuts('v1-115200', false, async (one, byte) => {
    const { board, old, wanted } = one;
    if (found(board, old, wanted) !== 'broken') return;
    mixtures += 1;
    const { bytes, pageBytes } = board.flash;
    expect([...bytes.subarray(0, pageBytes)], `after byte ${byte}`).toEqual(new Array(pageBytes).fill(0xff));
    // Behind it is the old program as it was, or the new one whole.
    const rest = Buffer.from(bytes.subarray(pageBytes, wanted.length));
    expect([old, wanted].some((whole) => rest.equals(whole.subarray(pageBytes, wanted.length)))).toBe(true);
    await doneAgain(one);
  });
  // Two frames of 128 bytes.
  expect(mixtures).toBeGreaterThanOrEqual(Math.floor(256 / EVERY) - 2);
  expect(mixtures).toBeLessThanOrEqual(2 * (Math.ceil(133 / EVERY) + 1));
});
