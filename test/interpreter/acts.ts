import type { Act } from '../fixtures/film.ts';

/** A level from one board time to another, ms: active in the ticks after the first, up to the second. */
export function detect(from: number, to: number, input: number): Act[] {
  return [
    [from, (board) => board.setRaw(input, true)],
    [to, (board) => board.setRaw(input, false)],
  ];
}

/** A button or a detector touched for 100 ms. */
export function tap(at: number, input: number): Act[] {
  return detect(at, at + 100, input);
}
