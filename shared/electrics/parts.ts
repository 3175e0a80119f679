/** What one has to buy or find for the lamps of a board. Choices without a source are common practice. */
import type { WireColour } from '../layout/electrics.ts';
import type { Layout } from '../layout/schema.ts';
import { FIRST_BIT } from '../layout/wiring/numbers.ts';
import type { CompiledBoard } from '../signals/compile.ts';
import { bandsOf, ohmsText } from './bands.ts';
import { chipOf } from './budget.ts';
import { type Base, baseOf } from './drivers.ts';
import { branchesOf, seriesOf } from './lamp-circuit.ts';
import { isWire, loadsOf } from './loads.ts';
import type { Load } from './model.ts';
import { SMALL_TRANSISTOR } from './profiles/limits.ts';
import { PROFILES } from './profiles/profiles.ts';
import { branchFigures, loadCurrents, RATINGS } from './resistors.ts';
import { BOARD_VOLTS } from './usual.ts';
import { milliampsText, voltsText } from './words.ts';

export interface Part {
  readonly kind: 'board' | 'lamp' | 'resistor' | 'transistor' | 'chip' | 'capacitor' | 'wire';
  /** What people ask for at the counter. */
  readonly what: string;
  readonly count: number;
  /** How to tell it, or what it is for. */
  readonly note: string;
}

/** One chip of the chain stays quiet with this beside it, nF. */
export const DECOUPLING = '100 nF';
/** Keeps the outputs of a chain off until the board has started, ohms. */
export const ENABLE_PULL_UP = 10_000;

/** Parts of one board in the order one needs them; each line once, with its count. */
export function partsOf(layout: Layout, compiled: CompiledBoard): Part[] {
  const list = new Counting();
  const board = layout.boards.find(({ id }) => id === compiled.id);
  const boardVolts = board?.power?.volts ?? BOARD_VOLTS.value;
  const loads = loadsOf(layout, compiled).filter((load) => !isWire(load));
  list.add('board', PROFILES[compiled.table.chip].name, 1, compiled.name);
  for (const load of loads) addLamp(list, load);
  for (const load of loads) addDriver(list, baseFor(load, layout, boardVolts));
  addChain(list, compiled, loads);
  for (const load of loads) list.add('wire', wireText(load.wire), load.heads.length, 'from an output to a lamp');
  addCommons(list, loads);
  return list.parts();
}

/** Base resistor of a lamp behind a transistor; null for others. */
export function baseFor(load: Load, layout: Layout, boardVolts: number): Base | null {
  if (load.circuit.driver !== 'transistor') return null;
  return baseOf(loadCurrents(load, boardVolts).lamps, boardVolts, seriesOf(layout));
}

function addLamp(list: Counting, load: Load): void {
  const { circuit, heads, colour } = load;
  const { branches } = branchesOf(circuit);
  if (circuit.source === 'filament') {
    const what = `Filament lamp ${voltsText(circuit.volts)}, ${milliampsText(circuit.milliamps)}`;
    list.add('lamp', what, heads.length * circuit.count, 'takes several times as much for a moment when cold');
    return;
  }
  const note = `taken for ${voltsText(circuit.forward)}, ${milliampsText(circuit.milliamps)}`;
  list.add('lamp', `LED, ${colour === '' ? 'any colour' : colour}`, heads.length * circuit.count, note);
  if (typeof circuit.resistor !== 'number') return;
  const { rating } = branchFigures(circuit);
  addResistor(list, circuit.resistor, heads.length * branches, rating, circuit.isGiven ? 'there already; ' : '');
}

function addResistor(list: Counting, ohms: number, count: number, rating: number | null, before = ''): void {
  const watts = rating === null ? `more than ${RATINGS.value.at(-1)} W` : wattsText(Math.max(rating, 0.25));
  const bands = bandsOf(ohms, 4);
  list.add('resistor', `Resistor ${ohmsText(ohms)}, ${watts}`, count, before + (bands?.join(', ') ?? ''));
}

/** Ratings below a quarter of a watt are seldom sold with wires. */
function wattsText(watts: number): string {
  const names: Readonly<Record<string, string>> = { '0.25': '¼ W', '0.5': '½ W' };
  return names[String(watts)] ?? `${watts} W`;
}

function addDriver(list: Counting, base: Base | null): void {
  if (base === null) return;
  list.add('transistor', `Transistor ${SMALL_TRANSISTOR.part}`, 1, 'emitter to ground, lamps at the collector');
  addResistor(list, base.ohms, 1, 0.25);
}

function addChain(list: Counting, compiled: CompiledBoard, loads: readonly Load[]): void {
  const { chain } = compiled.table;
  if (chain === null) return;
  const power = new Set(
    loads.filter(({ output, circuit }) => output >= FIRST_BIT && circuit.driver === 'power-register').map(chipOf),
  );
  list.add('chip', 'Shift register 74HC595', chain.chips - power.size, '');
  list.add('chip', 'Power shift register TPIC6B595', power.size, 'eight outputs that switch to ground');
  list.add('capacitor', `Capacitor ${DECOUPLING}, ceramic`, chain.chips, 'one beside each chip, from VCC to GND');
  if (chain.enable === null) return;
  const bands = bandsOf(ENABLE_PULL_UP, 4)?.join(', ') ?? '';
  list.add('resistor', `Resistor ${ohmsText(ENABLE_PULL_UP)}, ${wattsText(0.25)}`, 1, bands);
}

/** Each head has one wire besides: to ground, or to the plus of what feeds it. */
function addCommons(list: Counting, loads: readonly Load[]): void {
  const commons = { ground: new Set<string>(), plus: new Set<string>() };
  for (const load of loads) {
    const toPlus = load.activeLow || load.circuit.driver !== 'direct';
    for (const head of load.heads) commons[toPlus ? 'plus' : 'ground'].add(`${load.site} ${head.id}`);
  }
  list.add('wire', wireText('black'), commons.ground.size, 'from each head to ground');
  list.add('wire', wireText('brown'), commons.plus.size, 'from each head to the plus of its supply');
}

function wireText(colour: WireColour): string {
  return `Wire, ${colour}`;
}

const ORDER: readonly Part['kind'][] = ['board', 'chip', 'capacitor', 'transistor', 'lamp', 'resistor', 'wire'];

class Counting {
  readonly #parts = new Map<string, { kind: Part['kind']; what: string; note: string; count: number }>();

  /** Adds to the line that says the same, if there is one. */
  add(kind: Part['kind'], what: string, count: number, note: string): void {
    if (count === 0) return;
    const key = `${what}\n${note}`;
    const known = this.#parts.get(key);
    if (known === undefined) this.#parts.set(key, { kind, what, note, count });
    else known.count += count;
  }

  parts(): Part[] {
    return [...this.#parts.values()].sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
  }
}
