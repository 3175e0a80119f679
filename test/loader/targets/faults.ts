/** What goes wrong between a host and a boot loader, written down or by dice. */
import { chance, type Dice } from '../../fixtures/dice.ts';

/** What becomes of one byte on its way: none, one or more bytes, later if so wished. */
export type ByteFault = (
  byte: number,
  index: number,
) => { readonly bytes: readonly number[]; readonly lateMs?: number };

/** What happens to the board itself. `unplug` takes its power unless it has its own; `silence` hangs the loader until a
 * reset; `timeout` ends the loader's patience. */
export type Event = 'unplug' | 'silence' | 'timeout';

export interface Faults {
  /** Bytes from host to board and back, counted from 0 since the faults were set. */
  readonly toBoard?: ByteFault;
  readonly toHost?: ByteFault;
  /** Once the loader has carried out so many commands, counted from 1; `answered`: its answer still goes out. */
  readonly afterCommand?: { readonly number: number; readonly event: Event; readonly answered: boolean };
  /** Once so many bytes have reached the board, counted from 1. */
  readonly afterByte?: { readonly number: number; readonly event: Event };
  /** The first answer comes so much later, ms: by then the host has asked again. */
  readonly lateFirstAnswerMs?: number;
  /** So many reset pulses do not reach the chip; Infinity: a capacitor at the reset pin. */
  readonly lostPulses?: number;
}

export const lost: ByteFault = () => ({ bytes: [] });

/** Does something to the bytes with these numbers. */
export function at(
  numbers: readonly number[],
  what: 'drop' | 'repeat' | 'flip' | { readonly lateMs: number },
): ByteFault {
  return (byte, index) => (numbers.includes(index) ? done(byte, what) : { bytes: [byte] });
}

/** One byte in `oneIn` is dropped, repeated, flipped or late. */
export function byDice(dice: Dice, oneIn: number): ByteFault {
  return (byte) => {
    if (dice.int(1, oneIn) > 1) return { bytes: [byte] };
    if (chance(dice, 25)) return done(byte, 'drop');
    if (chance(dice, 33)) return done(byte, 'repeat');
    if (chance(dice, 50)) return { bytes: [byte ^ (1 << dice.int(0, 7))] };
    return done(byte, { lateMs: dice.int(1, 1200) });
  };
}

function done(byte: number, what: 'drop' | 'repeat' | 'flip' | { readonly lateMs: number }): ReturnType<ByteFault> {
  if (what === 'drop') return { bytes: [] };
  if (what === 'repeat') return { bytes: [byte, byte] };
  if (what === 'flip') return { bytes: [byte ^ 0x04] };
  return { bytes: [byte], lateMs: what.lateMs };
}
