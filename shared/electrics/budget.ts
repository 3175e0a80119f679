/** What a board carries: each pin, port group, chip, register, driver and supply, at worst and on average. */
import type { Board } from '../layout/outputs.ts';
import type { Layout } from '../layout/schema.ts';
import { FIRST_BIT } from '../layout/wiring/numbers.ts';
import { type Confidence, type Fact, fact } from '../practice/fact.ts';
import type { CompiledBoard } from '../signals/compile.ts';
import { loadsOf } from './loads.ts';
import type { Load } from './model.ts';
import {
  BOARD_OWN,
  CHIP_OWN,
  CHIP_TOTAL,
  PIN_LIMITS,
  POWER_REGISTER,
  SHIFT_REGISTER,
  SMALL_TRANSISTOR,
  USB,
} from './profiles/limits.ts';
import { groupPins, type PortGroup, PROFILES } from './profiles/profiles.ts';
import { type LoadCurrents, loadCurrents } from './resistors.ts';
import { type Duty, type DutyBasis, dutyOf } from './shown/duty.ts';
import { Moments } from './shown/worst.ts';
import { BOARD_VOLTS } from './usual.ts';
import { pinRuns, voltsText } from './words.ts';

export interface BudgetLine {
  /** output: of a 74HC595; driver: a transistor, or an output of a power register; supply: what feeds the lamps. */
  readonly is: 'pin' | 'group' | 'chip' | 'output' | 'register' | 'driver' | 'supply';
  /** What people read: `D5`, `A0 to A5, D0 to D4, sourcing`. */
  readonly name: string;
  /** Outputs that count, as in the board image. */
  readonly outputs: readonly number[];
  /** At the worst moment, mA, what the part takes for itself included. */
  readonly worst: number;
  /** False: `worst` is a bound, since sites that share an input may never show their worst together. */
  readonly exact: boolean;
  /** Lamps of the table that are lit at the worst moment. */
  readonly lamps: readonly number[];
  /** mA, what the part takes for itself included. */
  readonly average: number;
  /** What the part takes for itself, mA. */
  readonly own: number;
  /** mA; null where nobody said. */
  readonly limit: number | null;
  /** Beyond this, mA, the data sheet promises less. */
  readonly comfort: number | null;
  /** Of the limit. */
  readonly source: string;
  readonly confidence: Confidence;
}

export interface Budget {
  readonly board: string;
  readonly loads: readonly Load[];
  readonly lines: readonly BudgetLine[];
  readonly basis: DutyBasis;
  /** All lamps of the board lit at once, mA: mostly no interval shows that, but a host can ask for it. */
  readonly everything: number;
}

export function budgetOf(layout: Layout, compiled: CompiledBoard): Budget {
  const board = layout.boards.find(({ id }) => id === compiled.id);
  const loads = loadsOf(layout, compiled);
  const adding = new Adding(compiled, loads, board?.power?.volts ?? BOARD_VOLTS.value);
  const lines = [
    ...pinLines(adding),
    ...groupLines(adding),
    ...chipLines(adding),
    ...chainLines(adding),
    ...driverLines(adding),
    ...(board === undefined ? [] : supplyLines(adding, board)),
  ];
  const everything = loads.reduce((sum, load) => sum + adding.current(load).lamps, 0);
  return { board: compiled.id, loads, lines, basis: adding.duty.basis, everything };
}

interface Part {
  readonly is: BudgetLine['is'];
  readonly name: string;
  readonly limit: Fact<number> | null;
  readonly comfort?: Fact<number>;
  readonly own?: number;
  /** What a lit lamp counts, mA; default: the current through its output. */
  readonly of?: (load: Load) => number;
}

/** Sums up loads. */
class Adding {
  readonly duty: Duty;
  readonly loads: readonly Load[];
  readonly compiled: CompiledBoard;
  readonly volts: number;
  readonly #moments: Moments;
  readonly #currents: ReadonlyMap<Load, LoadCurrents>;

  constructor(compiled: CompiledBoard, loads: readonly Load[], volts: number) {
    this.compiled = compiled;
    this.loads = loads;
    this.volts = volts;
    this.#moments = new Moments(compiled.table);
    this.duty = dutyOf(compiled.table);
    this.#currents = new Map(loads.map((load) => [load, loadCurrents(load, volts)]));
  }

  current(load: Load): LoadCurrents {
    return this.#currents.get(load) ?? { lamps: 0, output: 0 };
  }

  /** One line, or none where nothing counts. */
  line(part: Part, loads: readonly Load[]): BudgetLine[] {
    const { of = (load: Load) => this.current(load).output, own = 0 } = part;
    const each = new Map(loads.map((load) => [load.lamp, of(load)]));
    if ([...each.values()].every((milliamps) => milliamps === 0)) return [];
    const [only] = loads;
    const worst =
      only !== undefined && loads.length === 1
        ? { value: each.get(only.lamp) ?? 0, lamps: [only.lamp], isExact: true }
        : this.#moments.worst((lamp) => each.get(lamp) ?? 0);
    const average = [...each].reduce((sum, [lamp, milliamps]) => sum + milliamps * (this.duty.lit[lamp] ?? 0), 0);
    return [
      {
        is: part.is,
        name: part.name,
        outputs: loads.filter((load) => (each.get(load.lamp) ?? 0) > 0).map(({ output }) => output),
        worst: worst.value + own,
        exact: worst.isExact,
        lamps: worst.lamps.filter((lamp) => (each.get(lamp) ?? 0) > 0),
        average: average + own,
        own,
        limit: part.limit?.value ?? null,
        comfort: part.comfort?.value ?? null,
        source: part.limit?.source ?? '',
        confidence: part.limit?.confidence ?? 'common',
      },
    ];
  }
}

/** An output behind which there is a transistor gives its base current, always from the high side. */
export function sinks(load: Load): boolean {
  return load.activeLow && load.circuit.driver === 'direct';
}

const isPin = (load: Load): boolean => load.output < FIRST_BIT;

function pinLines(adding: Adding): BudgetLine[] {
  const { absolute, specified } = PIN_LIMITS;
  return adding.loads
    .filter(isPin)
    .flatMap((load) => adding.line({ is: 'pin', name: load.outputName, limit: absolute, comfort: specified }, [load]));
}

function groupLines(adding: Adding): BudgetLine[] {
  const { chip } = adding.compiled.table;
  const { groups, pins } = PROFILES[chip];
  const isIn = (group: PortGroup, load: Load): boolean =>
    isPin(load) && sinks(load) === (group.direction === 'sink') && group.ports.has(pins[load.output]?.port ?? '');
  return groups.flatMap((group) => {
    const name = `${pinRuns(groupPins(chip, group))}, ${group.direction === 'sink' ? 'sinking' : 'sourcing'}`;
    return adding.line(
      { is: 'group', name, limit: group.limit },
      adding.loads.filter((load) => isIn(group, load)),
    );
  });
}

function chipLines(adding: Adding): BudgetLine[] {
  return [false, true].flatMap((sinking) => {
    const name = sinking ? 'Chip, through GND' : 'Chip, through VCC';
    const loads = adding.loads.filter((load) => isPin(load) && sinks(load) === sinking);
    return adding.line({ is: 'chip', name, limit: CHIP_TOTAL, own: CHIP_OWN.value }, loads);
  });
}

function chainLines(adding: Adding): BudgetLine[] {
  const bits = adding.loads.filter((load) => !isPin(load));
  const outputs = bits.flatMap((load) =>
    adding.line(
      { is: 'output', name: load.outputName, limit: SHIFT_REGISTER.output, comfort: SHIFT_REGISTER.specified },
      [load],
    ),
  );
  const chips = adding.compiled.table.chain?.chips ?? 0;
  const registers = Array.from({ length: chips }, (_, chip) =>
    [false, true].flatMap((sinking) => {
      const loads = bits.filter((load) => chipOf(load) === chip && sinks(load) === sinking);
      const name = `Chip ${chip + 1} of the chain, ${sinking ? 'through GND' : 'through VCC'}`;
      return adding.line({ is: 'register', name, limit: SHIFT_REGISTER.chip }, loads);
    }),
  );
  return [...outputs, ...registers.flat()];
}

/** Chip of the chain, 0 the nearest to the board. */
export function chipOf(load: Load): number {
  return Math.floor((load.output - FIRST_BIT) / 8);
}

function driverLines(adding: Adding): BudgetLine[] {
  return adding.loads.flatMap((load) => {
    const { driver } = load.circuit;
    if (driver === 'direct') return [];
    const isTransistor = driver === 'transistor';
    const name = isTransistor ? `Transistor behind ${load.outputName}` : `Power register, ${load.outputName}`;
    const limit = isTransistor ? SMALL_TRANSISTOR.collector : POWER_REGISTER.output;
    return adding.line({ is: 'driver', name, limit, of: (it) => adding.current(it).lamps }, [load]);
  });
}

function supplyLines(adding: Adding, board: Board): BudgetLine[] {
  const onBoard = (load: Load): boolean =>
    load.circuit.driver === 'direct' || Math.abs(load.circuit.volts - adding.volts) < 0.01;
  const byUsb = (board.power?.from ?? 'usb') === 'usb';
  const given = board.power?.milliamps;
  const limit = given !== undefined ? fact(given, 'owner', 'the layout says so of its supply') : byUsb ? USB : null;
  const name = byUsb ? 'USB' : `Supply of the board, ${voltsText(adding.volts)}`;
  // A transistor's base takes its current from the board, whatever feeds the lamps.
  const base = (load: Load): number => (load.circuit.driver === 'transistor' ? adding.current(load).output : 0);
  const lamps = (load: Load): number => adding.current(load).lamps;
  const of = (load: Load): number => (onBoard(load) ? lamps(load) : 0) + base(load);
  const others = [...new Set(adding.loads.filter((load) => !onBoard(load)).map(({ circuit }) => circuit.volts))];
  return [
    ...adding.line({ is: 'supply', name, limit, own: BOARD_OWN.value, of }, adding.loads),
    ...others
      .sort((a, b) => a - b)
      .flatMap((volts) =>
        adding.line(
          { is: 'supply', name: `Supply of the lamps, ${voltsText(volts)}`, limit: null, of: lamps },
          adding.loads.filter((load) => !onBoard(load) && load.circuit.volts === volts),
        ),
      ),
  ];
}
