/**
 * A real host in a process of its own, with its virtual board and with another one that it takes for a real board at
 * a port: it works without a pause until it is killed. Arguments: data folder, seed of this life.
 */
import { join } from 'node:path';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { createHost } from '../../electron/host/service/host.ts';
import { virtualMaker } from '../../electron/host/service/virtual-boards.ts';
import type { CallArgs, CallName, CallResults } from '../../shared/workbench/contract.ts';
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

live().catch((error: Error) => say({ type: 'broken', cause: String(error.stack) }));

async function live(): Promise<never> {
  await host.start();
  const onBench = chance(dice, 50);
  if (onBench) await meetBench();
  const scene = await must('look', {});
  const state = scene.boards.find(({ board }) => board === BOARD);
  await say({
    type: 'began',
    kept: onBench ? null : (state?.keptDials?.[0]?.[0] ?? null),
    layout: notesOf(scene.document.text),
    check: state?.check?.by ?? null,
  });
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

/** As with any board: the first time it gets the layout, and keeps it. */
async function meetBench(): Promise<void> {
  await bench.ready;
  const state = await must('connect', { board: BOARD, port: BENCH });
  if (state.running !== 'none') return;
  await must('send', { board: BOARD });
  await keepNow('bench', 18_000);
}

async function keep(where: 'virtual' | 'bench', ms: number): Promise<void> {
  await must('nudge', { board: BOARD, site: 0, dial: 0, ms });
  await keepNow(where, ms);
}

function keepNow(where: 'virtual' | 'bench', ms: number): Promise<void> {
  return promise(where, String(ms), () => must('keep', { board: BOARD }));
}

function save(mark: string): Promise<void> {
  const text = JSON.stringify({ ...JSON.parse(EXAMPLE.text), notes: mark });
  return promise('layout', mark, () => must('changeText', { text, what: `Wrote note ${mark}.` }));
}

function check(mark: string): Promise<void> {
  const record = { board: BOARD, by: mark, began: new Date().toISOString(), lamps: [] };
  return promise('check', mark, () => must('noteCheck', { board: BOARD, record, said: `Checked as ${mark}.` }));
}

function remark(mark: string): Promise<void> {
  return promise('remark', mark, () => must('remark', { text: mark }));
}

async function promise(thing: Thing, value: string, work: () => Promise<unknown>): Promise<void> {
  await say({ type: 'wanted', thing, value });
  await work();
  await say({ type: 'done', thing, value });
}

function notesOf(text: string): string {
  return JSON.parse(text).notes;
}

async function must<N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResults[N]> {
  const outcome = await answerCall(host.handlers, name, args);
  if (!outcome.ok) throw new Error(`${name}: ${JSON.stringify(outcome.problem)}`);
  return outcome.value as CallResults[N];
}

/** Is done when the system has the message, which then outlives this process. */
function say(message: FromHost): Promise<void> {
  return new Promise((resolve) => process.send?.(message, () => resolve()));
}
