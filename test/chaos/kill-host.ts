/**
 * A real host in a process of its own, with its virtual board and with another one that it takes for a real board at
 * a port: it works without a pause until it is killed. Arguments: data folder, seed of this life.
 */
import { join } from 'node:path';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { createHost } from '../../electron/host/service/host.ts';
import { virtualMaker } from '../../electron/host/service/virtual-boards.ts';
import type { CallArgs, CallName, CallResults, Outcome } from '../../shared/workbench/contract.ts';
import { answerCall } from '../../shared/workbench/serve.ts';
import { chance, pick, seededDice } from '../fixtures/dice.ts';
import { BENCH, BOARD, type FromHost, type Thing } from './kill-messages.ts';

const [folder = '', seed = '1'] = process.argv.slice(2);
const dice = seededDice(Number(seed));
const made = virtualMaker(join(folder, 'bench'))('board', 'atmega328p');
if (!made.ok) throw new Error(made.error);
const bench = made.value;
bench.power(true);

const host = createHost({
  shell: 'browser',
  version: '0.0.0',
  dataFolder: folder,
  serial: {
    list: async () => [{ path: BENCH, label: 'bench board', likely: true, virtual: false }],
    present: async () => [BENCH],
    open: async (path) =>
      path === BENCH ? bench.open() : { ok: false, error: { kind: 'missing', detail: `cannot open ${path}` } },
  },
});
host.telling((name, data) => {
  if (name === 'log') void say({ type: 'logged', number: (data as { number: number }).number });
});

// Nobody is there to kill it any more.
process.on('disconnect', () => process.exit());
live().catch((error: Error) => say({ type: 'broken', cause: String(error.stack) }));

async function live(): Promise<never> {
  await host.start();
  const onBench = chance(dice, 50);
  if (onBench) await meetBench();
  await say({ type: 'began', ...(await seen(onBench)) });
  const where = onBench ? 'bench' : 'virtual';
  for (let turn = 1; ; turn++) {
    const mark = `${seed}.${turn}`;
    await pick(dice, [
      () => keep(where, 13_000 + 10 * dice.int(0, 1000)),
      () => keep(where, 13_000 + 10 * dice.int(0, 1000)),
      () => save(mark),
      () => check(mark),
      () => remark(mark),
    ])();
  }
}

/** As a person sees it. What a slow computer has not read yet is not known. */
async function seen(onBench: boolean) {
  const scene = await must('look', {});
  const state = scene.boards.find(({ board }) => board === BOARD);
  return {
    kept: onBench ? null : (state?.keptDials?.[0]?.[0] ?? null),
    layout: notesOf(scene.document.text),
    check: state?.check?.by ?? null,
  };
}

/** As with any board: the first time it gets the layout, and keeps it. */
async function meetBench(): Promise<void> {
  await bench.ready;
  const met = await ask('connect', { board: BOARD, port: BENCH });
  if (!met.ok || met.value.running !== 'none') return;
  if ((await ask('send', { board: BOARD })).ok) await keepNow('bench', 18_000);
}

async function keep(where: 'virtual' | 'bench', ms: number): Promise<void> {
  const nudged = await ask('nudge', { board: BOARD, site: 0, dial: 0, ms });
  if (nudged.ok) await keepNow(where, ms);
  else await ask('connect', { board: BOARD, port: where === 'bench' ? BENCH : `virtual:${BOARD}` });
}

function keepNow(where: 'virtual' | 'bench', ms: number): Promise<void> {
  return promise(where, String(ms), () => ask('keep', { board: BOARD }));
}

function save(mark: string): Promise<void> {
  const text = JSON.stringify({ ...JSON.parse(EXAMPLE.text), notes: mark });
  return promise('layout', mark, () => ask('changeText', { text, what: `Wrote note ${mark}.` }));
}

function check(mark: string): Promise<void> {
  const record = { board: BOARD, by: mark, began: new Date().toISOString(), lamps: [] };
  return promise('check', mark, () => ask('noteCheck', { board: BOARD, record, said: `Checked as ${mark}.` }));
}

function remark(mark: string): Promise<void> {
  return promise('remark', mark, () => ask('remark', { text: mark }));
}

/** What is refused was not promised: on a computer that is too slow a board falls silent. */
async function promise(thing: Thing, value: string, work: () => Promise<Outcome<unknown>>): Promise<void> {
  await say({ type: 'wanted', thing, value });
  if ((await work()).ok) await say({ type: 'done', thing, value });
}

function notesOf(text: string): string {
  return JSON.parse(text).notes;
}

async function must<N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResults[N]> {
  const outcome = await ask(name, args);
  if (!outcome.ok) throw new Error(`${name}: ${JSON.stringify(outcome.problem)}`);
  return outcome.value;
}

async function ask<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>> {
  const outcome = (await answerCall(host.handlers, name, args)) as Outcome<CallResults[N]>;
  if (!outcome.ok && outcome.problem.code === 'hostFailed') throw new Error(`${name}: ${outcome.problem.detail}`);
  return outcome;
}

/** Is done when the system has the message, which then outlives this process. */
function say(message: FromHost): Promise<void> {
  return new Promise((resolve) => process.send?.(message, () => resolve()));
}
