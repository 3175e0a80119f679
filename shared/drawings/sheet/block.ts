/**
 * A row of pins on each side of a plain box, with what is wired to each of them: the drawing of a board and of the
 * chips of its chain. It says where wires go, not what a board looks like. Lengths are mm, as printed.
 */
import { element, group, hint, words } from '../svg.ts';
import { firstThatFits, shorten, widthOf } from '../text.ts';
import { WIDTH } from './styles.ts';

export interface BlockPin {
  /** `D5`, `15 QA`. */
  readonly name: string;
  /** Port bit, such as `PD5`; empty where there is none. */
  readonly also: string;
  /** Nothing is wired here; `above` says why, where it is not just free. */
  readonly isFree: boolean;
  /** Above the wire and below it: the first wording that fits is taken, else the last one is cut. */
  readonly above: readonly string[];
  readonly below: readonly string[];
  /** Along the wire, from the pin on. */
  readonly symbols: readonly BlockSymbol[];
  /** Where the wire ends: `GND`, `+5 V`; empty where the words say it. */
  readonly end: string;
}

/** `lamp` carries the letter of its colour; `driver` a T, `contact` an S for switch. */
export type BlockSymbol = 'resistor' | 'driver' | 'contact' | { readonly lamp: string };

export interface Block {
  readonly id: string;
  readonly title: string;
  /** From one pin to the next, mm; at least `PITCH`. */
  readonly pitch: number;
  readonly left: readonly BlockPin[];
  readonly right: readonly BlockPin[];
}

/** Height of text, mm: 14 px, the least of all drawings. */
export const TEXT_MM = 3.75;
export const PITCH = 12.6;
/** Room for the end of a wire, mm. */
const END = 15;
const STEP = 7;
const PAD = 3;
/** From the wire to the middle of the words above and below it, mm. */
const OFF = 3.7;
const LAMP = 1.95;

export function blockHeight({ left, right, pitch }: Block): number {
  return Math.max(left.length, right.length) * pitch + 2 * PAD;
}

/** As wide as the names in it need. */
function boxWidth({ left, right }: Block): number {
  const widest = (pins: readonly BlockPin[]): number =>
    Math.max(
      0,
      ...pins.map(({ name, also }) => widthOf(name, TEXT_MM, 'bold') + (also === '' ? 0 : widthOf(also, TEXT_MM) + 2)),
    );
  return widest(left) + widest(right) + 8;
}

/** One SVG, `WIDTH` mm wide. */
export function block(of: Block): string {
  const height = blockHeight(of);
  const box = boxWidth(of);
  const side = (WIDTH - box) / 2;
  const middle = (index: number): number => PAD + (index + 0.5) * of.pitch;
  const left = of.left.map((pin, index) => drawPin(pin, { edge: side, side, y: middle(index), way: -1 }));
  const right = of.right.map((pin, index) => drawPin(pin, { edge: side + box, side, y: middle(index), way: 1 }));
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      id: of.id,
      class: 'block',
      width: `${WIDTH}mm`,
      height: `${height}mm`,
      viewBox: `0 0 ${WIDTH} ${height}`,
      'font-size': TEXT_MM,
      role: 'img',
      'aria-label': of.title,
    },
    hint(of.title),
    element('rect', { class: 'hollow', x: side, y: 0.2, width: box, height: height - 0.4, rx: 1.5 }),
    ...left,
    ...right,
  );
}

interface Where {
  /** Side of the box, mm. */
  readonly edge: number;
  /** Room beside the box, mm. */
  readonly side: number;
  readonly y: number;
  /** -1 to the left of the box, 1 to its right. */
  readonly way: -1 | 1;
}

function drawPin(pin: BlockPin, { edge, side, y, way }: Where): string {
  const at = (mm: number): number => edge + way * mm;
  const outward = way < 0 ? ('end' as const) : undefined;
  const inward = way < 0 ? undefined : ('end' as const);
  const names = [
    words(pin.name, { x: at(-2), y, class: 'bold', ...(inward && { anchor: inward }) }),
    pin.also === ''
      ? ''
      : words(pin.also, { x: at(-4 - widthOf(pin.name, TEXT_MM, 'bold')), y, ...(inward && { anchor: inward }) }),
    element('circle', { class: 'solid', cx: edge, cy: y, r: 0.8 }),
  ];
  if (pin.isFree) {
    const said = pickWords(pin.above, side - 8);
    return group(
      { class: 'pin free' },
      ...names,
      element('path', { class: 'line', d: `M${edge} ${y}H${at(5)}` }),
      words(said, { x: at(7), y, ...(outward && { anchor: outward }) }),
    );
  }
  const room = side - 2;
  const far = side - (pin.end === '' ? 0 : END);
  return group(
    { class: 'pin used' },
    ...names,
    element('path', { class: 'wire', d: `M${edge} ${y}H${at(far)}` }),
    ...pin.symbols.map((symbol, index) => drawSymbol(symbol, at(far - 4 - (pin.symbols.length - 1 - index) * STEP), y)),
    words(pickWords(pin.above, room), {
      x: at(1.5),
      y: y - OFF,
      class: 'above',
      ...(outward && { anchor: outward }),
    }),
    words(pickWords(pin.below, room), {
      x: at(1.5),
      y: y + OFF,
      class: 'below',
      ...(outward && { anchor: outward }),
    }),
    pin.end === '' ? '' : words(pin.end, { x: at(far + 1), y, class: 'bold end', ...(outward && { anchor: outward }) }),
  );
}

function drawSymbol(symbol: BlockSymbol, x: number, y: number): string {
  if (symbol === 'resistor') {
    return element('rect', { class: 'hollow', x: x - 3, y: y - 1.1, width: 6, height: 2.2 });
  }
  if (typeof symbol === 'object') {
    return group(
      {},
      element('circle', { class: 'hollow', cx: x, cy: y, r: LAMP }),
      words(symbol.lamp, { x, y, anchor: 'middle' }),
    );
  }
  return group(
    {},
    element('rect', { class: 'hollow', x: x - LAMP, y: y - LAMP, width: 2 * LAMP, height: 2 * LAMP }),
    words(symbol === 'driver' ? 'T' : 'S', { x, y, anchor: 'middle' }),
  );
}

function pickWords(wordings: readonly string[], room: number): string {
  return firstThatFits(wordings, room, TEXT_MM) ?? shorten(wordings.at(-1) ?? '', room, TEXT_MM);
}
