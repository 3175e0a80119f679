import { describe, expect, it } from 'vitest';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import { buildStore } from '../../shared/table/store.ts';
import { twoStage } from '../fixtures/sites/two-stage.ts';

const MS = 16_000;
/** Enables the interrupt of the clock on both chips (TIMSK0). */
const CLOCK_INTERRUPT = 0x6e;
const GREEN_PIN = twoStage.lamps[2]?.output ?? 0;

function boardWithJunction(chip: Chip) {
  const image = loadImage(chip);
  if (!image.ok) throw new Error(image.error);
  const bytes = encodeTable({ ...twoStage, chip }).bytes;
  if (bytes === null) throw new Error('the junction does not encode');
  const eeprom = buildStore(chip, { slots: [{ sequence: 1, image: bytes }, null] });
  const board = new VirtualBoard({ chip, flash: image.flash, eeprom });
  let sent = '';
  board.onByte = (byte) => {
    sent += String.fromCharCode(byte);
  };
  const greetings = () =>
    [...sent.matchAll(/!\w+ hello 1 (\w+) (\w+)/g)].map(([, cause, flags]) => `${cause} ${flags}`);
  return { board, greetings, symbols: image.shipped.symbols };
}

describe.each(['atmega328p', 'atmega2560'] as const)('a board with an %s', (chip) => {
  it('says why it started', () => {
    const { board, greetings } = boardWithJunction(chip);
    board.power(true);
    board.run(200 * MS);
    board.reset();
    board.run(200 * MS);
    expect(greetings()).toEqual(['power 81', 'reset 81']);
  });

  it('is started again by the watchdog when it hangs, and its lamps are lit again', () => {
    const { board, greetings, symbols } = boardWithJunction(chip);
    board.power(true);
    board.run(500 * MS);
    expect(board.pin(GREEN_PIN)).toBe(1);
    // The clock stops: nobody says any more that the board is alive.
    board.poke(CLOCK_INTERRUPT, 0);
    board.run(1000 * MS);
    expect(greetings()).toEqual(['power 81', 'watchdog 81']);
    expect(board.pin(GREEN_PIN)).toBe(1);
    const now = symbols.board_now ?? 0;
    const clock = () => board.peek(now) + 256 * board.peek(now + 1);
    // Running again, from 0 on: between 0.25 s of hanging and all of the second.
    expect(clock()).toBeGreaterThan(500);
    expect(clock()).toBeLessThan(760);
  });
});
