import { setTimeout as pause } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { idealEdges } from './ideal.ts';
import { measure } from './measure.ts';
import { PENMARROW } from './penmarrow.ts';
import { CYCLES_PER_MS, Rig } from './rig.ts';

const table = withoutSweep(penmarrowBoard().table);

/** Long enough for each site to go round many times; the soak runs 24 hours. */
const HOURS = Number(process.env.AMBERWICK_HOURS ?? 0.5);

/** For the runner only: about a minute of its time for each emulated hour. */
const TIME_LIMIT = 120_000 + HOURS * 1_200_000;

/** The limit of the measured drift: a tick's own jitter, far below one tick. */
const JITTER_MICROSECONDS = 50;

test(
  'every lamp edge of the example comes within 1 ms of the paper schedule, without drift',
  async () => {
    const rig = new Rig(table);
    rig.board.power(true);
    for (let minute = 0; minute < HOURS * 60; minute++) {
      rig.runMs(60_000);
      if (minute % 60 !== 59) continue;
      console.log(`${(minute + 1) / 60} of ${HOURS} emulated hours`);
      // Lets the runner show it.
      await pause(0);
    }
    const edges = rig.takeEdges();
    const result = measure(edges, PENMARROW, edges[0]?.cycles ?? 0);
    console.log(`example, ${HOURS} emulated hours: ${JSON.stringify(result)}`);
    expect(result.wrong).toBeNull();
    // The beacons alone: two lamps change every 750 ms.
    expect(result.edges).toBeGreaterThan((HOURS * 3_600_000 * 2) / 750);
    expect(result.worstMicroseconds).toBeLessThan(1000);
    expect(Math.abs(result.driftMicroseconds)).toBeLessThan(JITTER_MICROSECONDS);
    expect(result.apartMicroseconds).toBeLessThan(50);
  },
  TIME_LIMIT,
);

test('across the wrap of the millisecond counter nothing is late, early or doubled', () => {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.board.runToAddress(rig.address('board_boot'), 16_000_000);
  rig.setBoardTime(2 ** 32 - 10_000);
  rig.runMs(180_000);
  const edges = rig.takeEdges();
  const result = measure(edges, PENMARROW, edges[0]?.cycles ?? 0);
  expect(result.wrong).toBeNull();
  expect(result.worstMicroseconds).toBeLessThan(1000);
  const now = rig.board.peek(rig.address('board_now') + 3);
  expect(now, 'the counter has gone through zero').toBe(0);
});

test('the measure itself finds an edge that is late, missing or doubled', () => {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(60_000);
  const edges = rig.takeEdges();
  const start = edges[0]?.cycles ?? 0;
  const late = edges.map((edge, index) => (index === 40 ? { ...edge, cycles: edge.cycles + 20_000 } : edge));
  expect(measure(late, PENMARROW, start).worstMicroseconds).toBeGreaterThan(1000);
  const missing = edges.filter((_, index) => index !== 40);
  expect(measure(missing, PENMARROW, start).wrong).not.toBeNull();
  const doubled = edges.flatMap((edge, index) => (index === 40 ? [edge, edge] : [edge]));
  expect(measure(doubled, PENMARROW, start).wrong).not.toBeNull();
});

test('the measure takes the edges of a whole day, and finds one late among them', () => {
  const day = idealEdges(PENMARROW, 24 * 3_600_000);
  const edges = day.map(({ ms, lamp, lit }) => ({ cycles: ms * CYCLES_PER_MS, lamp, lit }));
  expect(edges.length).toBeGreaterThan(230_000);
  expect(measure(edges, PENMARROW, 0)).toMatchObject({ wrong: null, worstMicroseconds: 0, driftMicroseconds: 0 });
  const late = edges.map((edge, index) => (index === 200_000 ? { ...edge, cycles: edge.cycles + 32_000 } : edge));
  expect(measure(late, PENMARROW, 0).worstMicroseconds).toBe(2000);
});
