/** Lamps of one board to other outputs, all at once: after wires were found crossed, or by hand. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Board } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { type Edited, noSuchBoard, noSuchLamp } from './edit.ts';
import { type LampPlace, lampAt, lampPlaces } from './lamps.ts';
import { boardOf, outputFields, outputName } from './numbers.ts';
import { outputsOf, type Use } from './outputs.ts';
import { withValueAt } from './path.ts';

/** Longest line of the log. */
const LINE = 400;

/**
 * `outputs`: for each lamp's path the output that it gets, as in the board image. Lamps that are not named stay where
 * they are. Everything else of a lamp (wire, polarity, electrics) goes with it: the lamp moves, not its wiring.
 */
export function permute(layout: Layout, boardId: string, outputs: ReadonlyMap<string, number>): Edited {
  const board = boardOf(layout, boardId);
  if (board === null) return noSuchBoard(boardId);
  const lamps = new Map(lampPlaces(layout, boardId).map((lamp) => [lamp.path, lamp]));
  const moves: Move[] = [];
  for (const [path, to] of outputs) {
    const lamp = lamps.get(path);
    if (lamp === undefined) return noSuchLamp(path);
    if (lamp.output !== to) moves.push({ lamp, to });
  }
  const findings = [...notForLamps(layout, board, moves), ...takenTwice(board, [...lamps.values()], moves)];
  if (findings.length > 0) return { findings };
  const next = moves.reduce((before, { lamp, to }) => onOutput(before, board, lamp, to), layout);
  return { layout: next, said: saidOf(board, moves) };
}

/** A lamp to an output; the lamp that was there gets the other's. */
export function assign(layout: Layout, path: string, output: number): Edited {
  const lamp = lampAt(layout, path);
  if (lamp === null) return noSuchLamp(path);
  const there = lampPlaces(layout, lamp.board).find((it) => it.output === output && it.path !== path);
  const moves = new Map([[path, output]]);
  if (there !== undefined && lamp.output !== null) moves.set(there.path, lamp.output);
  return permute(layout, lamp.board, moves);
}

export interface Move {
  readonly lamp: LampPlace;
  readonly to: number;
}

/** Of all lamps that hang elsewhere in the second layout; both have the same lamps. */
export function movesBetween(before: Layout, after: Layout, boardId: string): Move[] {
  const then = new Map(lampPlaces(after, boardId).map(({ path, output }) => [path, output]));
  return lampPlaces(before, boardId).flatMap((lamp) => {
    const to = then.get(lamp.path) ?? null;
    return to === null || to === lamp.output ? [] : [{ lamp, to }];
  });
}

/** The lamp's object with another output, its other fields as they were. */
export function onOutput(layout: Layout, board: Board, { path, lamp }: LampPlace, output: number): Layout {
  const { pin: _pin, bit: _bit, ...rest } = lamp;
  return withValueAt(layout, path, { ...rest, ...outputFields(board, output) });
}

function notForLamps(layout: Layout, board: Board, moves: readonly Move[]): Finding[] {
  const uses = new Map(outputsOf(layout, board.id).map(({ output, use }) => [output, use]));
  return moves.flatMap(({ lamp, to }) => {
    const use = uses.get(to);
    if (use?.is === 'free' || use?.is === 'lamp') return [];
    const name = outputName(board, to);
    return [
      error('not-for-lamps', lamp.path, {
        what: use ? `${name} of ${board.name} is ${usedFor(use)}.` : `${board.name} has no output ${name}.`,
        why: `${lamp.name} could not be wired to it.`,
        cure: 'Choose a free output, or one with a lamp: the two then change places.',
      }),
    ];
  });
}

/** For a sentence: "D2 is …". */
export function usedFor(use: Use): string {
  switch (use.is) {
    case 'free':
      return 'free';
    case 'serial':
      return 'the serial line to the computer';
    case 'input':
      return `an input: ${use.name}`;
    case 'chain':
      return `the ${use.wire} wire of the chain`;
    case 'lamp':
      return `used by ${use.lamp.name}`;
  }
}

function takenTwice(board: Board, lamps: readonly LampPlace[], moves: readonly Move[]): Finding[] {
  const targets = new Map(moves.map(({ lamp, to }) => [lamp.path, to]));
  const taken = new Map<number, LampPlace>();
  return lamps.flatMap((lamp): Finding[] => {
    const output = targets.get(lamp.path) ?? lamp.output;
    if (output === null) return [];
    const first = taken.get(output);
    taken.set(output, lamp);
    const isNew = targets.has(lamp.path) || (first !== undefined && targets.has(first.path));
    if (first === undefined || !isNew) return [];
    return [
      error('output-twice', lamp.path, {
        what: `${first.name} and ${lamp.name} would both be on ${outputName(board, output)}.`,
        why: 'One output cannot follow two plans.',
        cure: 'Give one of them another output.',
      }),
    ];
  });
}

function saidOf(board: Board, moves: readonly Move[]): string {
  const [first, second] = moves;
  if (first === undefined) return 'Left all outputs as they were.';
  const place = (output: number | null): string => (output === null ? 'no output' : outputName(board, output));
  const isSwap = moves.length === 2 && first.to === second?.lamp.output && second.to === first.lamp.output;
  if (isSwap) return `Exchanged the outputs of ${first.lamp.name} and ${second.lamp.name}.`.slice(0, LINE);
  if (moves.length === 1) {
    return `Moved ${first.lamp.name} from ${place(first.lamp.output)} to ${place(first.to)}.`.slice(0, LINE);
  }
  return `Gave ${moves.length} lamps of ${board.name} other outputs.`.slice(0, LINE);
}
