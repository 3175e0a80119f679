/** What is wrong with sums of currents, from the lines of a budget. */
import type { Finding } from '../../findings/finding.ts';
import { error, note, warning } from '../../findings/make.ts';
import type { Confidence } from '../../practice/fact.ts';
import type { Budget, BudgetLine } from '../budget.ts';
import { PB_TOTAL } from '../profiles/limits.ts';
import type { Chip } from '../profiles/profiles.ts';
import { milliampsText } from '../words.ts';
import { nameOf } from './lamps.ts';

/** Sums that come out at the limit by rounding are within it, mA. */
const SLACK = 0.001;

/** Limits that are from memory or mere custom never make an error. */
const FIRM: readonly Confidence[] = ['seen', 'quoted', 'derived', 'owner'];

/** `place` is that of the board in the document. */
export function checkLines(budget: Budget, place: string, chip: Chip): Finding[] {
  return [
    ...budget.lines.flatMap((line) => [...overLimit(line, budget, place), ...overComfort(line, budget)]),
    ...looksAlike(budget, place, chip),
  ];
}

function overLimit(line: BudgetLine, budget: Budget, place: string): Finding[] {
  if (line.limit === null || line.worst <= line.limit + SLACK) return [];
  const { code, path, who, why, cure } = wordsOf(line, budget, place);
  const words = {
    what: `${who} ${line.exact ? 'carries' : 'may carry up to'} ${milliampsText(line.worst)}${whenLit(line, budget)}.`,
    why: `${milliampsText(line.limit)} is the limit (${line.source}). ${why}`,
    cure,
  };
  // A computer that is asked for too much switches the socket off, which mends itself.
  if (line.is === 'supply') return [warning(code, path, words)];
  return [FIRM.includes(line.confidence) ? error(code, path, words) : note(code, path, words)];
}

/** Within what the pin survives, beyond what the data sheet speaks for. */
function overComfort(line: BudgetLine, budget: Budget): Finding[] {
  if (line.is !== 'pin' || line.comfort === null || line.limit === null) return [];
  if (line.worst <= line.comfort + SLACK || line.worst > line.limit + SLACK) return [];
  const load = budget.loads.find(({ output }) => output === line.outputs[0]);
  if (load === undefined) return [];
  return [
    warning('pin-comfort', load.path, {
      what: `${nameOf(load)} carries ${milliampsText(line.worst)}.`,
      why: `The data sheet speaks for ${milliampsText(line.comfort)} (8271 §29.2); ${milliampsText(line.limit)} is where a pin may break.`,
      cure: 'Use larger resistors, give some heads an output of their own, or put a transistor behind the output.',
    }),
  ];
}

interface Words {
  readonly code: string;
  readonly path: string;
  readonly who: string;
  readonly why: string;
  readonly cure: string;
}

function wordsOf(line: BudgetLine, budget: Budget, place: string): Words {
  const load = budget.loads.find(({ output }) => output === line.outputs[0]);
  const path = load?.path ?? place;
  const who = load === undefined ? line.name : nameOf(load);
  const driver = 'put a transistor behind it, or a power register in the chain';
  // The document's lamp says what it looks like; with a forward voltage it is an LED that imitates one.
  const instead =
    load?.circuit.source === 'filament'
      ? `It is taken for a filament lamp: if it is an LED that glows like one, give its forward voltage; else ${driver}.`
      : `Use larger resistors, or ${driver}.`;
  switch (line.is) {
    case 'pin':
      return {
        code: 'pin-current',
        path,
        who,
        why: 'Beyond it the pin may break at once.',
        cure: instead,
      };
    case 'output':
      return {
        code: 'register-output-current',
        path,
        who,
        why: 'Beyond it the shift register may break.',
        cure: instead,
      };
    case 'driver':
      return {
        code: 'driver-current',
        path,
        who: `${who}: its driver`,
        why: 'Beyond it the driver grows hot and fails.',
        cure: 'Share the lamps out among several drivers, or use a stronger one.',
      };
    case 'group':
      return {
        code: 'port-group-current',
        path: place,
        who: `The port group ${line.name}`,
        why: 'Together the pins of a group carry less than each by itself.',
        cure: 'Move lamps to pins of another group, use larger resistors, or put transistors behind them.',
      };
    case 'chip':
      return {
        code: 'chip-current',
        path: place,
        who: line.name,
        why: 'All lamps share these pins of the chip.',
        cure: 'Use larger resistors, put transistors behind the strongest lamps, or move lamps to a chain with its own supply pins.',
      };
    case 'register':
      return {
        code: 'register-current',
        path: `${place}.chain`,
        who: line.name,
        why: 'All eight outputs share these pins.',
        cure: 'Use larger resistors, spread the lamps over more chips, or use a power register.',
      };
    case 'supply':
      return {
        code: 'supply-current',
        path: place,
        who: line.name,
        why: 'Beyond it the voltage sags, lamps grow dim and the board may start anew.',
        cure: 'Feed the board from a supply that gives more, or use larger resistors.',
      };
  }
}

/** "… while these are lit: …", the first few of them. */
function whenLit(line: BudgetLine, budget: Budget): string {
  if (line.lamps.length < 2) return '';
  const names = line.lamps.flatMap((lamp) => budget.loads.find((load) => load.lamp === lamp)?.outputName ?? []);
  const rest = names.length > 8 ? ` and ${names.length - 8} more` : '';
  return ` while ${names.slice(0, 8).join(', ')}${rest} are lit`;
}

/** Boards that look alike are sold with a sibling of the chip. */
function looksAlike(budget: Budget, place: string, chip: Chip): Finding[] {
  if (chip !== 'atmega328p') return [];
  const worst = Math.max(0, ...budget.lines.filter(({ is }) => is === 'chip').map((line) => line.worst));
  const total = budget.lines.find(({ is }) => is === 'chip')?.limit ?? 0;
  if (worst <= PB_TOTAL.value || worst > total) return [];
  return [
    note('chip-sibling', place, {
      what: `The chip carries ${milliampsText(worst)}: too much for an ATmega328PB.`,
      why: `Some boards have that chip, which carries ${milliampsText(PB_TOTAL.value)} (${PB_TOTAL.source}).`,
      cure: 'Read what stands on the chip of your board. With an ATmega328P all is well.',
    }),
  ];
}
