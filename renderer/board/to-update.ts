/** Which boards are to be offered newer firmware, and which offers were put away. */
import { signal } from '@preact/signals';
import type { BoardModel } from '../model/board.ts';
import { firmwareOffer } from '../model/firmware.ts';

/** Until the app is closed: boards, each with the version that was offered. */
const later = signal<ReadonlySet<string>>(new Set());

/** Boards that answer and have older firmware than this app ships, but for those whose offer was put away. */
export function toUpdate(boards: readonly BoardModel[]): readonly BoardModel[] {
  return boards.filter((board) => isOld(board) && !later.value.has(keyOf(board)));
}

export function putOff(board: BoardModel): void {
  later.value = new Set([...later.value, keyOf(board)]);
}

function isOld({ state }: BoardModel): boolean {
  return state.value.link === 'ready' && firmwareOffer(state.value)?.kind === 'update';
}

/** Another board in its place, or a newer app, is worth another word. */
function keyOf({ id, state }: BoardModel): string {
  return `${id} ${state.value.who?.identity} ${state.value.firmware.shipped}`;
}
