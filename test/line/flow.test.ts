/**
 * The line at its limit, on the shipped image in the emulator: the board has room for 2 bytes behind the one that comes in
 * and a ring of 63. Nothing may be lost there, whatever a host does within the rules.
 */
import { expect, test } from 'vitest';
import { readBack } from '../../electron/host/readback.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import { DirectLine } from '../../electron/host/virtual/direct.ts';
import { encodeRequest } from '../../shared/link/line.ts';
import { ask } from '../../shared/link/requests.ts';
import { quickTown } from '../fuzz/towns.ts';
import { imageOf, Rig, shippedFlash, storeWith } from '../timing/rig.ts';
import { Outstanding } from './outstanding.ts';

const MS = CPU_HZ / 1000;

function connected() {
  const flash = shippedFlash('atmega328p');
  const board = new VirtualBoard({ chip: 'atmega328p', flash, eeprom: storeWith(quickTown) });
  board.power(true);
  const line = new DirectLine(board);
  const count = new Outstanding();
  const session = new BoardSession(count.watch(line), { clock: line });
  // Until its receiver is on nobody hears: a host that opens a port is heard from its next try on.
  line.board.run(100 * MS);
  return { board, line, count, session };
}

test('uploads, nudges, events, overrides and snapshots at once: no byte lost, no line dropped, none sent twice', async () => {
  const { board, line, count, session } = connected();
  expect(await line.until(session.greet())).toMatchObject({ ok: true });
  await line.until(session.request(ask.tell(true)));
  const images = [30, 20, 40, 50, 10, 60, 80].map((amber) =>
    imageOf({
      ...quickTown,
      sites: quickTown.sites.map((site) => ({ ...site, dials: site.dials.map((ms) => ms + amber) })),
    }),
  );
  let isOver = false;
  const quick = async () => {
    for (let round = 0; !isOver; round++) {
      const one = round % 5;
      if (one === 0) await session.request(ask.dial(0, 0, 50 + 10 * (round % 9)));
      else if (one === 1) await session.request(ask.lamp(round % 14, round % 2 ? 'on' : 'auto', undefined));
      else if (one === 2) await session.request(ask.snap());
      else if (one === 3) await session.request(ask.read('run', 32 * (round % 4)));
      else await session.request(ask.press(0, 'auto'));
    }
  };
  const slow = async () => {
    for (const image of images) expect(await upload(session, image)).toMatchObject({ ok: true });
    expect(await session.request(ask.keep())).toMatchObject({ ok: true });
    expect(await readBack(session, 'kept')).toMatchObject({ ok: true });
    isOver = true;
  };
  await line.until(Promise.all([quick(), slow()]));

  const state = await line.until(session.request(ask.state()));
  expect(state).toMatchObject({ ok: true, value: { badLines: 0 } });
  expect(board.bytesLost).toBe(0);
  expect(count).toMatchObject({ bad: 0, most: { quick: 1, slow: 1 } });
  // A keep takes longer than the host waits before it asks once more; a board that has just started is greeted again.
  expect(count.repeats.filter((word) => word !== 'keep' && word !== 'who')).toEqual([]);
  // Enough at once to matter: the two lines are longer than the ring, and the way back was full of events.
  expect(count.most.bytes).toBeGreaterThan(63);
  expect(count.requests).toBeGreaterThan(150);
  expect(count.events).toBeGreaterThan(150);
  await session.close();
});

test('the longest lines that the rules allow, back to back at the full rate, while events fill the way back', () => {
  const rig = new Rig(quickTown);
  rig.board.power(true);
  rig.runMs(300);
  expect(rig.ask('tell', 1)).toBe('ok');
  const sent = (sequence: number, word: string, args: (string | number)[]) => encodeRequest(sequence, word, args);
  const name = '50656E6D6172726F77205369676E616C';
  let answered = 0;
  for (let round = 0; round < 150; round++) {
    const quick = sent(0x80 + (round % 50), 'x'.repeat(54), []);
    const slow = sent(0xc0 + (round % 50), 'label', ['4A5B6C7D', name]);
    expect([quick.length, slow.length]).toEqual([64, 57]);
    const from = rig.lines.length;
    rig.board.write(new TextEncoder().encode(round % 2 ? quick + slow : slow + quick));
    const done = () => rig.lines.slice(from).filter((line) => line.startsWith('=')).length;
    for (let ms = 0; ms < 400 && done() < 2; ms++) rig.runMs(1);
    answered += done();
  }
  expect(answered).toBe(300);
  expect(rig.board.bytesLost).toBe(0);
  expect(rig.ask('state').split(' ')[7]).toBe('0');
});

test('a host that does not read for a while holds up neither the board nor itself', async () => {
  const { board, line, count, session } = connected();
  expect(await line.until(session.greet())).toMatchObject({ ok: true });
  await line.until(session.request(ask.tell(true)));
  let edges = 0;
  board.onPin = () => edges++;
  // The computer is busy: the board goes on, and what it says piles up in front of the host.
  board.run(3000 * MS);
  expect(edges).toBeGreaterThan(300);
  const before = count.events;
  const beat = await line.until(session.request(ask.beat()));
  expect(beat).toMatchObject({ ok: true });
  expect(count.events - before).toBeGreaterThan(300);
  expect(count.bad).toBe(0);
  expect(session.ended).toBeNull();
  expect(board.bytesLost).toBe(0);
});
