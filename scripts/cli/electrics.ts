/** `amberwick electrics FILE`: resistors, currents and limits of every output, and the parts to buy. */
import { bandsOf, ohmsText } from '../../shared/electrics/bands.ts';
import { type Budget, type BudgetLine, budgetOf } from '../../shared/electrics/budget.ts';
import { checkBoard } from '../../shared/electrics/check/check.ts';
import { isWire } from '../../shared/electrics/loads.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { baseFor, partsOf } from '../../shared/electrics/parts.ts';
import { branchFigures, leastMilliamps, loadCurrents, type WIRES, wireDrop } from '../../shared/electrics/resistors.ts';
import { BOARD_VOLTS } from '../../shared/electrics/usual.ts';
import { milliampsText, voltsText } from '../../shared/electrics/words.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import { chooseBoard, loadGood } from './load.ts';
import { columns, exitFor, type Report } from './output.ts';

export interface ElectricsOptions {
  readonly board?: string;
}

const CAUTION = 'Extra-low voltage only, 24 V at most. Take the power away before you solder or change a wire.';

export function electrics(file: string, options: ElectricsOptions): Report {
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { layout } = loaded.value;
  let boards: readonly CompiledBoard[] = loaded.value.boards;
  if (options.board !== undefined) {
    const chosen = chooseBoard(loaded.value, options.board);
    if (!chosen.ok) return chosen.report;
    boards = [chosen.value];
  }
  const made = boards.map((board) => ({ board, budget: budgetOf(layout, board) }));
  const findings = made.flatMap(({ board, budget }) => checkBoard(layout, board, budget));
  return {
    exit: exitFor(findings),
    findings,
    data: {
      boards: made.map(({ board, budget }) => ({
        id: board.id,
        outputs: budget.loads.map((load) => outputData(layout, board, load)),
        sums: budget.lines.filter(({ is }) => is !== 'pin' && is !== 'output'),
        average: budget.basis,
        parts: partsOf(layout, board),
      })),
    },
    text: made.flatMap(({ board, budget }) => [...boardText(layout, board, budget), '']).concat(CAUTION),
  };
}

function voltsOf(layout: Layout, board: CompiledBoard): number {
  return layout.boards.find(({ id }) => id === board.id)?.power?.volts ?? BOARD_VOLTS.value;
}

function outputData(layout: Layout, board: CompiledBoard, load: Load): Record<string, unknown> {
  const { circuit } = load;
  const figures = branchFigures(circuit);
  return {
    output: load.outputName,
    site: load.site,
    label: load.label,
    colour: load.colour,
    wire: load.wire,
    heads: load.heads.map(({ id }) => id),
    ...circuit,
    bands: typeof circuit.resistor === 'number' ? bandsOf(circuit.resistor, 4) : null,
    each: figures.milliamps,
    watts: figures.watts,
    current: loadCurrents(load, voltsOf(layout, board)),
    base: baseFor(load, layout, voltsOf(layout, board)),
  };
}

function boardText(layout: Layout, board: CompiledBoard, budget: Budget): string[] {
  const sums = budget.lines.filter(({ is }) => is !== 'pin' && is !== 'output');
  return [
    `${board.name}: outputs`,
    ...columns([
      ['output', 'lamp', 'heads', 'wire', 'resistor', 'rings', 'each', 'output carries'],
      ...budget.loads.map((load) => outputRow(load, voltsOf(layout, board))),
    ]),
    '',
    `Sums at the worst moment, and on average ${averageText(budget)}:`,
    ...columns([['part', 'at worst', 'average', 'limit', 'source'], ...sums.map(sumRow)]),
    `The lamps that are lit together count; all of them at once would take ${milliampsText(budget.everything)}.`,
    ...wireText(layout, board, budget),
    '',
    'Parts:',
    ...columns(partsOf(layout, board).map(({ what, count, note }) => [String(count), what, note])),
  ];
}

function averageText({ basis }: Budget): string {
  return basis === 'cycle'
    ? 'over the planned cycles'
    : 'with everything asked for and every wait as short as it may be';
}

function outputRow(load: Load, boardVolts: number): string[] {
  const { circuit } = load;
  const lamp = [load.site === null ? '' : load.siteName, load.label, load.colour].filter((it) => it !== '').join(', ');
  if (isWire(load)) return [load.outputName, lamp, '', load.wire, 'a wire to another board', '', '', ''];
  const bands = typeof circuit.resistor === 'number' ? bandsOf(circuit.resistor, 4) : null;
  return [
    load.outputName,
    lamp,
    String(load.heads.length),
    load.wire,
    resistorText(load),
    bands?.join('-') ?? '',
    eachText(load),
    milliampsText(loadCurrents(load, boardVolts).output),
  ];
}

/** Less where the output drops what its data sheet allows. */
function eachText(load: Load): string {
  const [least, most] = [leastMilliamps(load), branchFigures(load.circuit).milliamps].map((it) => it.toFixed(1));
  return least === most ? `${most} mA` : `${least} to ${most} mA`;
}

/** What thin wire takes from the strongest lamp. */
function wireText(layout: Layout, board: CompiledBoard, { loads }: Budget): string[] {
  const metres = 2;
  const currents = loads.map((load) => ({ load, lamps: loadCurrents(load, voltsOf(layout, board)).lamps }));
  const strongest = currents.sort((a, b) => b.lamps - a.lamps)[0];
  if (strongest === undefined) return [];
  const drop = (wire: keyof typeof WIRES): string => `${Math.round(wireDrop(strongest.lamps, metres, wire) * 1000)} mV`;
  const { load, lamps } = strongest;
  return [
    `Wires: ${milliampsText(lamps)} to ${load.outputName} lose ${drop('7/0.2')} in ${metres} m of 7/0.2 mm wire and back, ${drop('30 AWG')} in 30 AWG.`,
  ];
}

function resistorText({ circuit }: Load): string {
  if (circuit.resistor === 'fitted') return 'in the lamp';
  if (circuit.resistor !== null) return ohmsText(circuit.resistor);
  return circuit.source === 'filament' ? `none (filament, ${voltsText(circuit.volts)})` : 'none fits';
}

function sumRow(line: BudgetLine): string[] {
  const bound = line.exact ? '' : 'at most ';
  const limit = line.limit === null ? 'not said' : milliampsText(line.limit);
  return [line.name, `${bound}${milliampsText(line.worst)}`, milliampsText(line.average), limit, line.source];
}
