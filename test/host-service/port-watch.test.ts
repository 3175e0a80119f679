import { expect, it } from 'vitest';
import { PortWatch } from '../../electron/host/service/port-watch.ts';
import { FakeClock, settle } from '../host/fake-clock.ts';

function watching(first: string[] = ['/dev/ttyS0']) {
  const clock = new FakeClock();
  const bench = { clock, there: first, watched: [] as string[], silent: false, looks: 0, told: [] as string[] };
  const watch = new PortWatch({
    clock,
    present: async () => {
      bench.looks += 1;
      if (bench.silent) throw new Error('nobody tells');
      return bench.there;
    },
    watched: () => bench.watched,
    onGone: (paths) => bench.told.push(`gone ${paths}`),
    onChanged: () => bench.told.push('changed'),
  });
  return Object.assign(bench, { watch });
}

it('looks twice a second from start to stop', async () => {
  const bench = watching();
  await bench.clock.advance(5000);
  expect(bench.looks).toBe(0);
  bench.watch.start();
  await bench.clock.advance(5000);
  expect(bench.looks).toBe(11);
  bench.watch.stop();
  await bench.clock.advance(5000);
  expect(bench.looks).toBe(11);
  expect(bench.clock.waiting).toBe(0);
});

it('tells within half a second that a port came, and that one went', async () => {
  const bench = watching();
  bench.watch.start();
  await bench.clock.advance(1100);
  bench.there = ['/dev/ttyS0', '/dev/ttyUSB0'];
  await bench.clock.advance(399);
  expect(bench.told).toEqual([]);
  await bench.clock.advance(1);
  expect(bench.told).toEqual(['changed']);
  bench.there = ['/dev/ttyS0'];
  await bench.clock.advance(500);
  expect(bench.told).toEqual(['changed', 'gone /dev/ttyUSB0', 'changed']);
  await bench.clock.advance(5000);
  expect(bench.told.length).toBe(3);
});

it('knows what came after a moment, in order, as long as it stays', async () => {
  const bench = watching(['/dev/ttyUSB0']);
  bench.watch.start();
  await bench.clock.advance(600);
  bench.there = ['/dev/ttyUSB2', '/dev/ttyUSB0'];
  await bench.clock.advance(500);
  bench.there = ['/dev/ttyUSB1', '/dev/ttyUSB2', '/dev/ttyUSB0'];
  await bench.clock.advance(500);
  expect(bench.watch.appeared(0)).toEqual(['/dev/ttyUSB2', '/dev/ttyUSB1']);
  expect(bench.watch.appeared(1000)).toEqual(['/dev/ttyUSB1']);
  expect(bench.watch.appeared(1500)).toEqual([]);
  bench.there = ['/dev/ttyUSB2'];
  await bench.clock.advance(500);
  bench.there = ['/dev/ttyUSB2', '/dev/ttyUSB0'];
  await bench.clock.advance(500);
  expect(bench.watch.appeared(0)).toEqual(['/dev/ttyUSB2', '/dev/ttyUSB0']);
});

it('takes a device that it is told to watch for one that was there before', async () => {
  const bench = watching();
  bench.watch.start();
  await bench.clock.advance(600);
  bench.watched = ['/elsewhere/board'];
  bench.there = ['/dev/ttyS0', '/elsewhere/board'];
  await bench.clock.advance(500);
  expect(bench.watch.appeared(0)).toEqual([]);
  bench.there = ['/dev/ttyS0'];
  await bench.clock.advance(500);
  bench.there = ['/dev/ttyS0', '/elsewhere/board'];
  await bench.clock.advance(500);
  expect(bench.watch.appeared(0)).toEqual(['/elsewhere/board']);
  expect(bench.told).toContain('gone /elsewhere/board');
});

it('takes nothing for gone where the system does not tell', async () => {
  const bench = watching(['/dev/ttyUSB0']);
  bench.watch.start();
  await bench.clock.advance(600);
  bench.silent = true;
  await bench.clock.advance(2000);
  bench.silent = false;
  await bench.clock.advance(2000);
  expect(bench.told).toEqual([]);
});

it('waits for a slow answer instead of asking twice at once', async () => {
  const clock = new FakeClock();
  const answers: (() => void)[] = [];
  const watch = new PortWatch({
    clock,
    present: () => new Promise((resolve) => answers.push(() => resolve([]))),
    watched: () => [],
    onGone: () => {},
    onChanged: () => {},
  });
  watch.start();
  await clock.advance(10_000);
  expect(answers.length).toBe(1);
  answers[0]?.();
  await settle();
  await clock.advance(500);
  expect(answers.length).toBe(2);
  watch.stop();
});
