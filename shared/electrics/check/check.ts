/** Everything that is wrong with the electrics of a layout. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Layout } from '../../layout/schema.ts';
import { FIRST_BIT } from '../../layout/wiring/numbers.ts';
import type { CompiledBoard } from '../../signals/compile.ts';
import { type Budget, budgetOf, chipOf } from '../budget.ts';
import { BOARD_VOLTS } from '../usual.ts';
import { checkLamp } from './lamps.ts';
import { checkLines } from './lines.ts';

/** Never throws; `boards` come from the same layout. Boards that did not compile have no findings here. */
export function checkElectrics(layout: Layout, boards: readonly CompiledBoard[]): Finding[] {
  return boards.flatMap((compiled) => checkBoard(layout, compiled, budgetOf(layout, compiled)));
}

/** The same for one board whose budget is there already. */
export function checkBoard(layout: Layout, compiled: CompiledBoard, budget: Budget): Finding[] {
  const index = layout.boards.findIndex(({ id }) => id === compiled.id);
  const place = `boards[${index}]`;
  const volts = layout.boards[index]?.power?.volts ?? BOARD_VOLTS.value;
  return [
    ...budget.loads.flatMap((load) => checkLamp(load, volts)),
    ...checkLines(budget, place, compiled.table.chip),
    ...checkRegisters(budget, place),
  ];
}

/** One chip of the chain is of one kind. */
function checkRegisters(budget: Budget, place: string): Finding[] {
  const bits = budget.loads.filter(({ output }) => output >= FIRST_BIT);
  const chips = [...new Set(bits.map(chipOf))].sort((a, b) => a - b);
  return chips.flatMap((chip) => {
    const on = bits.filter((load) => chipOf(load) === chip);
    const power = on.filter(({ circuit }) => circuit.driver === 'power-register');
    if (power.length === 0 || power.length === on.length) return [];
    const others = on.filter((load) => !power.includes(load)).map(({ outputName }) => outputName);
    return [
      error('mixed-register', `${place}.chain`, {
        what: `Chip ${chip + 1} of the chain is a power register for some lamps, and none for ${others.join(', ')}.`,
        why: 'A power register only sinks; a plain one feeds lamps as well. One chip cannot be both.',
        cure: 'Give all lamps of the chip the same kind of driver, or move some to another chip.',
      }),
    ];
  });
}
