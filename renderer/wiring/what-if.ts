/** What a change of the wiring would bring, before it is made: outputs that come free, currents that grow. */
import { type BudgetLine, budgetOf } from '../../shared/electrics/budget.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { PIN_LIMITS, SHIFT_REGISTER } from '../../shared/electrics/profiles/limits.ts';
import { PROFILES } from '../../shared/electrics/profiles/profiles.ts';
import { loadCurrents } from '../../shared/electrics/resistors.ts';
import { takeLargerBoard } from '../../shared/layout/new-site/larger-board.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type AllocateOptions, allocate, type OutputGroup } from '../../shared/layout/wiring/allocate.ts';
import { addChain, chipsFor } from '../../shared/layout/wiring/chain.ts';
import type { Done } from '../../shared/layout/wiring/edit.ts';
import { FIRST_BIT, outputName } from '../../shared/layout/wiring/numbers.ts';
import { lampOutputs, outputsOf } from '../../shared/layout/wiring/outputs.ts';
import { type Move, movesBetween } from '../../shared/layout/wiring/permute.ts';
import { shareHeads, sharingOf } from '../../shared/layout/wiring/share.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { type Wired, wiredOf } from '../model/wiring.ts';
import { counted, currentText } from './words.ts';

/** Most that the output of each lamp carries, by path, mA. */
function outputCurrent(loads: ReadonlyMap<string, Load>, path: string): number {
  const load = loads.get(path);
  return load ? loadCurrents(load).output : 0;
}

/** The port groups of the board's chip, for the direction in which its lamps take their current. */
export function allocateOptions({ board, loads }: Wired): AllocateOptions {
  const { pins, groups } = PROFILES[board.chip];
  const isSunk = (path: string): boolean => loads.get(path)?.activeLow ?? false;
  return {
    milliamps: (path) => outputCurrent(loads, path),
    groups: groups.map(
      (group): OutputGroup => ({
        outputs: pins.filter(({ port }) => group.ports.has(port)).map(({ number }) => number),
        limit: group.limit.value,
        counts: (path) => isSunk(path) === (group.direction === 'sink'),
      }),
    ),
  };
}

export interface LaidOut {
  readonly done: Done | null;
  readonly moves: readonly Move[];
  /** What is in the way. */
  readonly problem: string | null;
}

export function layOut(wired: Wired): LaidOut {
  const edit = allocate(wired.layout, wired.board.id, allocateOptions(wired));
  if ('findings' in edit) {
    return { done: null, moves: [], problem: edit.findings.map(({ what, cure }) => `${what} ${cure}`).join(' ') };
  }
  return { done: edit, moves: movesBetween(wired.layout, edit.layout, wired.board.id), problem: null };
}

/** One way to have more outputs. */
export interface WayOut {
  readonly id: string;
  /** What the button says. */
  readonly button: string;
  /** What it brings and what it costs, in numbers. */
  readonly brings: string;
  readonly costs: string;
  readonly done: Done;
}

/** Sites of the board whose heads could share outputs, each with what it saves. */
export function sharingWays(wired: Wired): WayOut[] {
  return wired.layout.sites.flatMap((site): WayOut[] => {
    if (site.board !== wired.board.id) return [];
    const { sharings } = sharingOf(wired.layout, site.id);
    const edit = shareHeads(wired.layout, site.id);
    if ('findings' in edit || sharings.length === 0) return [];
    const after = again(edit.layout, wired.board.id);
    const grown = sharings.map(({ path }) => ({ path, after: outputCurrent(after?.loads ?? new Map(), path) }));
    const most = grown.reduce((a, b) => (b.after > a.after ? b : a));
    const output = after?.lamps.find(({ path }) => path === most.path)?.output ?? null;
    const name = output === null ? 'an output' : outputName(wired.board, output);
    const freed = sharings.reduce((sum, it) => sum + it.freed, 0);
    return [
      {
        id: `share-${site.id}`,
        button: `Share outputs at ${site.name}`,
        brings: `${counted(freed, 'output')} come free; the wires of the heads are joined.`,
        costs: `${name} then carries ${currentText(most.after)}, the most of the shared ones; ${specifiedWords(output)}.`,
        done: edit,
      },
    ];
  });
}

function specifiedWords(output: number | null): string {
  const isBit = output !== null && output >= FIRST_BIT;
  const { value } = isBit ? SHIFT_REGISTER.specified : PIN_LIMITS.specified;
  return `${value} mA is what ${isBit ? 'an output of the chain' : 'a pin'} is specified for`;
}

/** The lamps of some sites on a chain; null with the reason where that cannot be. */
export function chainWay(wired: Wired, sites: readonly string[]): WayOut | string {
  const { layout, board } = wired;
  const edit = addChain(layout, board.id, { sites });
  if ('findings' in edit) return edit.findings.map(({ what, cure }) => `${what} ${cure}`).join(' ');
  const chain = edit.layout.boards.find(({ id }) => id === board.id)?.chain;
  const after = again(edit.layout, board.id);
  const chips = chipsFor(layout, board.id, sites);
  const wires = [chain?.data, chain?.clock, chain?.latch, chain?.enable].filter((pin) => pin !== undefined);
  const gain = freeOf(edit.layout, board.id) - freeOf(layout, board.id);
  return {
    id: 'chain',
    button: board.chain ? 'Make the chain longer' : 'Add the chain',
    brings: `${counted(chips, 'chip')} (74HC595): ${gain >= 0 ? `${counted(gain, 'output')} more` : `${counted(-gain, 'output')} fewer`} free. Data, clock, latch${wires.length > 3 ? ' and output enable' : ''}: ${wires.join(', ')}.`,
    costs: chipWords(wired, after),
    done: edit,
  };
}

/** Chips of the chain and the board's own chip at their worst moments, before and after. */
function chipWords(before: Wired, after: Wired | null): string {
  const now = linesOf(before);
  const then = after ? linesOf(after) : [];
  const fullest = then.filter(({ is }) => is === 'register').sort((a, b) => b.worst - a.worst)[0];
  const own = (lines: readonly BudgetLine[]): number =>
    Math.max(0, ...lines.flatMap((it) => (it.is === 'chip' ? it.worst : [])));
  const limit = fullest?.limit ?? null;
  const chain = fullest
    ? `${fullest.name} carries at most ${currentText(fullest.worst)}${limit === null ? '' : ` of ${limit} mA`}. `
    : '';
  return `${chain}The chip of the board carries ${currentText(own(then))} instead of ${currentText(own(now))}.`;
}

function linesOf({ layout, compiled }: Wired): readonly BudgetLine[] {
  return compiled ? budgetOf(layout, compiled).lines : [];
}

export function largerWay({ layout, board }: Wired): WayOut | null {
  if (board.chip !== 'atmega328p') return null;
  const next = takeLargerBoard(layout, board.id);
  const count = (it: Layout): number =>
    outputsOf(it, board.id).filter(({ output, use }) => output < FIRST_BIT && use.is !== 'serial').length;
  return {
    id: 'larger',
    button: 'Take the larger board',
    brings: `${count(next)} pins instead of ${count(layout)}; every wire stays on the pin of the same name.`,
    costs: 'Another board with an ATmega2560; the wires are moved over pin by pin.',
    done: { layout: next, said: `Took a board with an ATmega2560 for ${board.name}.` },
  };
}

function freeOf(layout: Layout, board: string): number {
  return lampOutputs(layout, board).filter(({ use }) => use.is === 'free').length;
}

function again(layout: Layout, board: string): Wired | null {
  return wiredOf(layout, board, compileLayout(layout).boards);
}
