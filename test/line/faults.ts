/** What may happen to a byte on its way, as words that can be read, kept and played again. */
import { type Dice, pick } from '../fixtures/dice.ts';

export type Way = 'board' | 'host';

/**
 * `split`: the bytes after it come by themselves. `repeat`: it comes twice. `delay`: it and all behind it come `value` ms
 * later. `flip`: bit `value` is wrong. `reset`: the board is reset before it. `unplug`: the cable is pulled before it.
 */
export type FaultKind = 'split' | 'drop' | 'flip' | 'repeat' | 'delay' | 'reset' | 'unplug';

export interface Fault {
  readonly kind: FaultKind;
  /** Where the byte was going, and its number that way, from 0. */
  readonly to: Way;
  readonly byte: number;
  readonly value: number;
}

/** The fault of a byte, or null. Each byte is asked about once, in its order. */
export type FaultPlan = (to: Way, byte: number) => Fault | null;

/** `flip byte 17 to the board, 3`: kind, number, direction, and a bit or milliseconds where the kind has one. */
export function faultText({ kind, to, byte, value }: Fault): string {
  const more = kind === 'flip' || kind === 'delay' ? `, ${value}` : '';
  return `${kind} byte ${byte} to the ${to}${more}`;
}

const TEXT = /^(split|drop|flip|repeat|delay|reset|unplug) byte (\d+) to the (board|host)(?:, (\d+))?$/;

/** Throws when it is no such text: scripts are written by hand. */
export function faultFrom(text: string): Fault {
  const [, kind, byte, to, value = '0'] = TEXT.exec(text) ?? [];
  if (kind === undefined) throw new Error(`no fault: ${text}`);
  return { kind: kind as FaultKind, to: to as Way, byte: Number(byte), value: Number(value) };
}

/** These faults and no others. */
export function scripted(...texts: readonly string[]): FaultPlan {
  const faults = texts.map(faultFrom);
  return (to, byte) => faults.find((fault) => fault.to === to && fault.byte === byte) ?? null;
}

export const noFaults: FaultPlan = () => null;

/** How often each kind is taken when there is a fault. */
export type Weights = Readonly<Partial<Record<FaultKind, number>>>;

/** Noise as a bad cable or a busy hub makes it; a reset or a pulled plug about once in five uploads. */
export const CLUB_NIGHT: Weights = { drop: 240, flip: 240, repeat: 240, split: 140, delay: 136, reset: 2, unplug: 2 };

/** Each byte has a fault with this chance (0 to 1), of a kind by weight. */
export function random(dice: Dice, rate: number, weights: Weights = CLUB_NIGHT): FaultPlan {
  const bag = Object.entries(weights).flatMap(([kind, weight]) => Array<FaultKind>(weight).fill(kind as FaultKind));
  return (to, byte) => {
    if (dice.int(1, 1_000_000) > rate * 1_000_000) return null;
    const kind = pick(dice, bag);
    return { kind, to, byte, value: kind === 'delay' ? dice.int(1, 60) : dice.int(0, 7) };
  };
}
