/**
 * What a power cut at any cycle leaves of the byte that the EEPROM is at. The emulated one changes at once when a
 * write begins; the real one is erased during the first half of the time and written during the second.
 */
import type { VirtualBoard } from '../../electron/host/virtual/board.ts';
import type { Dice } from '../fixtures/dice.ts';

interface Write {
  readonly place: number;
  readonly before: number;
  readonly at: number;
}

export type TornIn = 'erase' | 'write' | null;

export class TornWrite {
  private readonly board: VirtualBoard;
  private readonly shadow: Uint8Array;
  private last: Write | null = null;

  constructor(board: VirtualBoard) {
    this.board = board;
    this.shadow = board.eeprom.memory.slice();
    board.onEepromChange = () => this.note();
  }

  /** Cuts the power now. A byte under way keeps some bits of what it was and gets some of what it was to be. */
  cut(dice: Dice): TornIn {
    const { board, last } = this;
    const { memory, busyUntil } = board.eeprom;
    const { cycles } = board;
    board.power(false);
    if (!last || cycles >= busyUntil) return null;
    const erasing = cycles - last.at < (busyUntil - last.at) / 2;
    const some = dice.int(0, 255);
    memory[last.place] = erasing ? last.before | some : (memory[last.place] ?? 0) | some;
    this.shadow.set(memory);
    return erasing ? 'erase' : 'write';
  }

  /** Erasing and writing are told one after the other, in the same cycle. */
  private note(): void {
    const { memory } = this.board.eeprom;
    const place = this.shadow.findIndex((byte, at) => byte !== memory[at]);
    if (place < 0) return;
    const isSame = this.last?.at === this.board.cycles && this.last.place === place;
    if (!isSame) this.last = { place, before: this.shadow[place] ?? 0xff, at: this.board.cycles };
    this.shadow[place] = memory[place] ?? 0xff;
  }

  /** The test has changed the memory itself. */
  look(): void {
    this.shadow.set(this.board.eeprom.memory);
    this.last = null;
  }
}
