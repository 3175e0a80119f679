/** Speeds of the virtual board: 1 is real time, 0 as fast as it goes. */
import type { BoardModel } from '../model/board.ts';
import type { Model } from '../model/model.ts';

export const SPEEDS: readonly number[] = [1, 2, 5, 10, 20, 50, 0];

export function speedName(factor: number): string {
  if (factor === 0) return 'As fast as it goes';
  return factor === 1 ? 'Real time' : `${factor} times`;
}

export async function changeSpeed(model: Model, board: BoardModel, steps: number): Promise<void> {
  const now = SPEEDS.indexOf(board.state.value.speed ?? 1);
  const next = SPEEDS[Math.min(SPEEDS.length - 1, Math.max(0, now + steps))];
  if (next !== undefined) await model.ask('speed', { board: board.id, factor: next });
}
