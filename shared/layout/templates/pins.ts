/** Which outputs of a board are free, and how a new site's lamps are laid on them. */
import type { Board, Lamp, Pin } from '../outputs.ts';
import type { Layout } from '../schema.ts';

/**
 * Pins for lamps and inputs (firmware/PROTOCOL.md chapter 5): the first is D2, because D0 and D1 are the
 * serial line; `analogue` is the number of A0. A test holds them against the format's own numbers.
 */
export const BOARD_PINS: Readonly<Record<Board['chip'], { readonly analogue: number; readonly last: number }>> = {
  atmega328p: { analogue: 14, last: 19 },
  atmega2560: { analogue: 54, last: 69 },
};

const FIRST_PIN = 2;
/** The board's own LED hangs on it, and boot loaders blink it: taken last. */
const OWN_LED = 13;

/** Free pins of a board by their names, in the board's order; D13 comes last. None where there is no such board. */
export function freePins(layout: Layout, board: string): string[] {
  const found = layout.boards.find((it) => it.id === board);
  if (found === undefined) return [];
  const { analogue, last } = BOARD_PINS[found.chip];
  const used = new Set(
    usedOutputs(layout, found).flatMap(({ pin }) => (pin === undefined ? [] : [countedPin(pin, analogue)])),
  );
  const free: number[] = [];
  for (let pin = FIRST_PIN; pin <= last; pin++) if (!used.has(pin)) free.push(pin);
  const ordered = [...free.filter((pin) => pin !== OWN_LED), ...free.filter((pin) => pin === OWN_LED)];
  return ordered.map((pin) => namedPin(pin, analogue));
}

/** Free bits of a board's chain, in order; none where it has no chain. */
export function freeBits(layout: Layout, board: string): number[] {
  const found = layout.boards.find((it) => it.id === board);
  if (found?.chain === undefined) return [];
  const used = new Set(usedOutputs(layout, found).map(({ bit }) => bit));
  return Array.from({ length: found.chain.chips * 8 }, (_, bit) => bit).filter((bit) => !used.has(bit));
}

/**
 * Outputs for some heads with so many lamps each, on bits of the chain where they fit, else on pins. The
 * lamps of one head stay side by side where the board has room for it. Null: too few outputs are free.
 */
export function allotLamps(layout: Layout, board: string, heads: readonly number[]): Lamp[][] | null {
  const bits = freeBits(layout, board);
  const wanted = heads.reduce((sum, lamps) => sum + lamps, 0);
  if (bits.length >= wanted) return inRuns(bits, heads).map((head) => head.map((bit) => ({ bit })));
  const found = layout.boards.find((it) => it.id === board);
  const pins = freePins(layout, board);
  if (found === undefined || pins.length < wanted) return null;
  const { analogue } = BOARD_PINS[found.chip];
  const numbers = pins.map((pin) => countedPin(pin, analogue));
  return inRuns(numbers, heads).map((head) => head.map((pin) => ({ pin: namedPin(pin, analogue) })));
}

/** Each head takes the first unbroken run that holds it; where none does, the first that are left. */
function inRuns(free: readonly number[], heads: readonly number[]): number[][] {
  let left = [...free];
  return heads.map((lamps) => {
    const start = left.findIndex((first, at) => lamps > 0 && left[at + lamps - 1] === first + lamps - 1);
    const taken = left.slice(Math.max(0, start), Math.max(0, start) + lamps);
    left = left.filter((output) => !taken.includes(output));
    return taken;
  });
}

interface Output {
  readonly pin?: Pin;
  readonly bit?: number;
}

/** Everything on a board that names a pin or a bit, whatever kind of site it belongs to. */
function usedOutputs(layout: Layout, board: Board): Output[] {
  const onBoard = (it: { readonly board: string }): boolean => it.board === board.id;
  const { data, clock, latch, enable } = board.chain ?? {};
  const wires = [data, clock, latch, enable].flatMap((pin) => (pin === undefined ? [] : [{ pin }]));
  const places = [layout.sites, layout.inputs ?? [], layout.groups ?? []].flatMap((list) =>
    [...list].filter(onBoard).flatMap((it) => outputsIn(it)),
  );
  return [...wires, ...places];
}

function outputsIn(value: unknown): Output[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(outputsIn);
  const { pin, bit } = value as { pin?: unknown; bit?: unknown };
  const own: Output[] = [
    ...(typeof pin === 'string' || typeof pin === 'number' ? [{ pin }] : []),
    ...(typeof bit === 'number' ? [{ bit }] : []),
  ];
  return [...own, ...Object.values(value).flatMap(outputsIn)];
}

/** Number of a pin as the board counts; -1 for what is no pin. */
export function countedPin(pin: Pin, analogue: number): number {
  if (typeof pin === 'number') return pin;
  const match = /^([DA])(\d{1,2})$/i.exec(pin.trim());
  if (match === null) return -1;
  return Number(match[2]) + (match[1]?.toUpperCase() === 'A' ? analogue : 0);
}

/** The name that stands on the board; `analogue`: number of its A0. */
export function namedPin(pin: number, analogue: number): string {
  return pin < analogue ? `D${pin}` : `A${pin - analogue}`;
}
