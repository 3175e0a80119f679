/** The pins of a board in two rows with what hangs on them. */

import { ohmsText } from '../../electrics/bands.ts';
import type { Load } from '../../electrics/model.ts';
import { type PinProfile, PROFILES } from '../../electrics/profiles/profiles.ts';
import type { InputPin } from '../../table/model.ts';
import { type Block, type BlockPin, type BlockSymbol, block, PITCH } from './block.ts';
import type { SheetBoard } from './model.ts';
import { commonText, headsText, lampText } from './words.ts';

/** Pins of one side of one drawing; two sides fill a page. */
const MOST = 18;

/** One drawing, or several where the board has more pins than a page has room for. */
export function pinDrawings(sheet: SheetBoard): string[] {
  const { pins: board } = PROFILES[sheet.board.chip];
  const pins = board.map((pin) => boardPin(sheet, pin));
  const all = [...pins, ...powerPins(sheet)];
  const pages = Math.ceil(all.length / (2 * MOST));
  const side = Math.ceil(all.length / (2 * pages));
  return Array.from({ length: pages }, (_, page) => {
    const first = page * 2 * side;
    return block({
      id: `pins-${sheet.compiled.id}-${page + 1}`,
      pitch: side <= 13 ? 15 : PITCH,
      title: `Pins of ${sheet.compiled.name}${pages === 1 ? '' : `, drawing ${page + 1} of ${pages}`}`,
      left: all.slice(first, first + side),
      right: all.slice(first + side, first + 2 * side),
    } satisfies Block);
  });
}

function boardPin(sheet: SheetBoard, { number: pin, name, port, roles }: PinProfile): BlockPin {
  const { compiled, loads } = sheet;
  const names = { name, also: port };
  const load = loads.find((it) => it.output === pin);
  if (load) return { ...names, ...lampWire(load) };
  const input = compiled.table.inputs.find((it) => it.pin === pin);
  if (input) return { ...names, ...inputWire(input) };
  const chain = chainWire(sheet, pin);
  if (chain !== null) return { ...names, ...chain };
  if (roles.includes('serial'))
    return { ...names, ...free('line to the computer, leave free', 'to the computer', 'computer') };
  return { ...names, ...free(...(roles.includes('led') ? ["free (the board's own LED)", 'free'] : ['free'])) };
}

type Wire = Omit<BlockPin, 'name' | 'also'>;

const free = (...above: string[]): Wire => ({ isFree: true, above, below: [], symbols: [], end: '' });

/** Letters of the lamps; a lamp without a colour has none. */
const LETTERS: Readonly<Record<string, string>> = {
  red: 'R',
  amber: 'A',
  green: 'G',
  yellow: 'Y',
  white: 'W',
  'warm-white': 'W',
  blue: 'B',
};

/** A lamp with its wire, also on a bit of the chain. */
export function lampWire(load: Load): Wire {
  const { driver, resistor } = load.circuit;
  const symbols: BlockSymbol[] = [
    ...(driver === 'transistor' ? (['driver'] as const) : []),
    ...(typeof resistor === 'number' ? (['resistor'] as const) : []),
    { lamp: LETTERS[load.colour.split(' ').at(-1) ?? ''] ?? '' },
  ];
  const times = load.heads.length > 1 ? `${load.heads.length} × ` : '';
  const lamp = `${times}${lampText(load)}`;
  const behind = typeof resistor === 'number' ? [`, ${ohmsText(resistor)}`] : [];
  const name = load.heads.length === 1 ? headsText(load) : load.label;
  const wires = [`${lamp}, ${load.wire} wire`, `${load.wire} wire`];
  return {
    isFree: false,
    above: load.site === null ? [name] : [`${load.siteName}: ${name}`, `${load.siteName}: ${load.label}`, name],
    below: [...wires.flatMap((it) => behind.map((more) => `${it}${more}`)), ...wires],
    symbols,
    end: commonText(load),
  };
}

function inputWire({ name, activeLow, pullUp }: InputPin): Wire {
  return {
    isFree: false,
    above: [name],
    below: [activeLow && pullUp ? 'input, pull-up in the chip' : 'input'],
    symbols: ['contact'],
    end: activeLow ? 'GND' : '+5 V',
  };
}

function chainWire({ compiled }: SheetBoard, pin: number): Wire | null {
  const { chain } = compiled.table;
  if (chain === null) return null;
  const uses: readonly [number | null, string, string][] = [
    [chain.data, 'Chain: data', 'to SER of chip 1'],
    [chain.clock, 'Chain: clock', 'to SRCLK of every chip'],
    [chain.latch, 'Chain: latch', 'to RCLK of every chip'],
    [chain.enable, 'Chain: output enable', 'to OE of every chip'],
  ];
  const use = uses.find(([of]) => of === pin);
  return use ? { isFree: false, above: [use[1]], below: [use[2]], symbols: [], end: '' } : null;
}

/** Ground and supply, each with how many heads share it. */
function powerPins({ loads, compiled }: SheetBoard): BlockPin[] {
  const pins = loads.filter(({ output }) => output < 128);
  const heads = (of: string): number =>
    pins.filter((load) => commonText(load) === of).reduce((all, load) => addHeads(all, load), new Set<string>()).size;
  const shared = (count: number): string => `common wire of ${count} ${count === 1 ? 'head' : 'heads'}`;
  const low = heads('GND');
  const high = heads('+5 V');
  const chips = compiled.table.chain === null ? '' : 'the chips of the chain';
  const wire = (name: string, count: number): BlockPin => {
    const said = [count > 0 ? shared(count) : '', chips].filter((it) => it !== '');
    const names = { name, also: '' };
    if (said.length === 0) return { ...names, ...free('free') };
    return { ...names, isFree: false, above: said.slice(0, 1), below: said.slice(1), symbols: [], end: '' };
  };
  return [wire('GND', low), wire('5 V', high)];
}

function addHeads(all: Set<string>, { site, heads }: Load): Set<string> {
  for (const { id } of heads) all.add(`${site} ${id}`);
  return all;
}
