import { expect, it } from 'vitest';
import { Heart } from '../../electron/host/service/heart.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { FakeBoard } from '../host/fake-board.ts';
import { FakeClock } from '../host/fake-clock.ts';

async function beating(speed: number, pace: number) {
  const clock = new FakeClock();
  const board = new FakeBoard();
  board.replies.beat = () => [Math.round(clock.now() * pace)];
  const told: [number, number][] = [];
  const heart = new Heart(clock, { beat: (ms, at) => told.push([ms, at]), speed: () => speed });
  heart.start(new BoardSession(board.stream, { clock }));
  await clock.advance(2000);
  return { told, asked: board.words().length, heart, clock, board };
}

it.each([
  // Twice a second at real time.
  [1, 1, 5],
  // Every 1,500 ms of a board that is 20 times as fast: every 75 ms.
  [20, 20, 27],
  // Never more seldom than twice a second.
  [0.1, 0.1, 5],
  // As fast as it goes.
  [0, 90, 201],
])('at speed %d it asks often enough for the board', async (speed, pace, asked) => {
  expect((await beating(speed, pace)).asked).toBe(asked);
});

it('tells the time twice a second, with the pace that it sees', async () => {
  expect((await beating(1, 1)).told).toEqual([
    [0, 1],
    [500, 1],
    [1000, 1],
    [1500, 1],
    [2000, 1],
  ]);
  const slower = (await beating(60, 25)).told;
  expect(slower.length).toBe(5);
  expect(slower.slice(1).map(([, pace]) => pace)).toEqual([25, 25, 25, 25]);
});

it('is quiet once stopped', async () => {
  const { heart, clock, board, asked } = await beating(1, 1);
  heart.stop();
  await clock.advance(5000);
  expect(board.words().length).toBe(asked);
});
