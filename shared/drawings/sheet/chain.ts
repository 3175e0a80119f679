/**
 * The shift registers behind a board: one drawing for each chip, with its pins by number.
 * 74HC595: MC74HC595A data sheet, pin assignment. Power register (TPIC6B595 class): SLIS032B, logic symbol.
 */

import { ohmsText } from '../../electrics/bands.ts';
import { DECOUPLING, ENABLE_PULL_UP } from '../../electrics/parts.ts';
import { pinName } from '../../signals/pins.ts';
import { CHAIN_BASE } from '../../table/format.ts';
import { type BlockPin, block, PITCH } from './block.ts';
import { heading, html, list } from './html.ts';
import type { SheetBoard } from './model.ts';
import { lampWire } from './pins.ts';

interface ChipPins {
  readonly part: string;
  /** Outputs in the order of the bits. */
  readonly outputs: readonly string[];
  readonly data: string;
  readonly clock: string;
  readonly latch: string;
  readonly enable: string;
  readonly clear: string;
  readonly supply: string;
  readonly ground: string;
  readonly next: string;
}

const LOGIC: ChipPins = {
  part: '74HC595',
  outputs: ['15 QA', '1 QB', '2 QC', '3 QD', '4 QE', '5 QF', '6 QG', '7 QH'],
  data: '14 SER',
  clock: '11 SRCLK',
  latch: '12 RCLK',
  enable: '13 OE',
  clear: '10 SRCLR',
  supply: '16 VCC',
  ground: '8 GND',
  next: "9 QH'",
};

/** The numbers of supply and ground stand in the package drawing, which the source leaves out: from memory. */
const POWER: ChipPins = {
  part: 'power register',
  outputs: ['4 DRAIN0', '5 DRAIN1', '6 DRAIN2', '7 DRAIN3', '14 DRAIN4', '15 DRAIN5', '16 DRAIN6', '17 DRAIN7'],
  data: '3 SER IN',
  clock: '13 SRCK',
  latch: '12 RCK',
  enable: '9 G',
  clear: '8 SRCLR',
  supply: 'VCC',
  ground: 'GND, all',
  next: '18 SER OUT',
};

/** Empty where the board has no chain. */
export function chainSection(sheet: SheetBoard): string {
  const { chain } = sheet.compiled.table;
  if (chain === null) return '';
  const chips = Array.from({ length: chain.chips }, (_, chip) => chipFigure(sheet, chip, chain.chips));
  return html(
    'section',
    { class: 'page chain' },
    heading(`${sheet.compiled.name}: the chain`),
    list([
      'Chip 1 is the one nearest to the board. Data go from chip to chip; clock, latch and output enable go to all chips.',
      `Every chip needs a capacitor of ${DECOUPLING} between its supply and its ground, close beside it.`,
      chain.enable === null
        ? 'Output enable is tied to GND: the lamps may flicker for a moment when power comes.'
        : `One resistor of ${ohmsText(ENABLE_PULL_UP)} from output enable to +5 V keeps the lamps dark until the board has started.`,
      'Keep the wires from chip to chip short (common practice, no source).',
    ]),
    ...chips,
  );
}

function chipFigure(sheet: SheetBoard, chip: number, count: number): string {
  const loads = sheet.loads.filter(({ output }) => output >= CHAIN_BASE && (output - CHAIN_BASE) >> 3 === chip);
  const pins = loads.some(({ circuit }) => circuit.driver === 'power-register') ? POWER : LOGIC;
  const title = `Chip ${chip + 1} of ${count}: ${pins.part}, bits ${8 * chip} to ${8 * chip + 7}`;
  const right = pins.outputs.map((name, output): BlockPin => {
    const bit = 8 * chip + output;
    const load = loads.find((it) => it.output === CHAIN_BASE + bit);
    if (load) return { name, also: '', ...withBit(lampWire(load), bit) };
    return wire(name, `bit ${bit}: free`, '', true);
  });
  return html(
    'figure',
    {},
    html('figcaption', {}, html('strong', {}, title)),
    block({
      id: `chip-${sheet.compiled.id}-${chip + 1}`,
      pitch: PITCH,
      title,
      left: controlPins(sheet, pins, chip, count),
      right,
    }),
  );
}

function controlPins(sheet: SheetBoard, pins: ChipPins, chip: number, count: number): BlockPin[] {
  const { chain } = sheet.compiled.table;
  const at = (pin: number | undefined): string => `from ${pinName(pin ?? 0, sheet.board.chip)} of the board`;
  const enable = chain?.enable ?? null;
  return [
    wire(pins.data, 'data in', chip === 0 ? at(chain?.data) : `from the data out of chip ${chip}`),
    wire(pins.clock, 'clock', at(chain?.clock)),
    wire(pins.latch, 'latch', at(chain?.latch)),
    wire(pins.enable, 'output enable', enable === null ? 'to GND' : at(enable)),
    wire(pins.clear, 'clear, not used', 'to +5 V'),
    wire(pins.supply, '+5 V', `${DECOUPLING} from here to GND`),
    wire(pins.ground, 'GND', 'joined with that of the board'),
    chip + 1 < count
      ? wire(pins.next, 'data out', `to the data in of chip ${chip + 2}`)
      : wire(pins.next, 'free', '', true),
  ];
}

function withBit<T extends Pick<BlockPin, 'above'>>(wired: T, bit: number): T {
  return { ...wired, above: wired.above.map((it) => `bit ${bit}: ${it}`) };
}

function wire(name: string, above: string, below: string, isFree = false): BlockPin {
  return { name, also: '', isFree, above: [above], below: [below], symbols: [], end: '' };
}
