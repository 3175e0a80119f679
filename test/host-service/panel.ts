import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { get } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { WebSocket } from 'ws';
import { type ServeOptions, serve } from '../../electron/host/serve.ts';
import { socketPipe } from '../../electron/host/transport/socket-pipe.ts';
import { createClient } from '../../shared/workbench/client.ts';
import type {
  BoardState,
  CallArgs,
  CallName,
  CallResults,
  EventName,
  Events,
  Workbench,
} from '../../shared/workbench/contract.ts';

/** Gone when the test is. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The address that `serve` prints, opened as a browser would open it. */
async function enter(address: string): Promise<{ workbench: Workbench; leave: () => void }> {
  const cookie = await new Promise<string>((resolve, reject) => {
    get(address, (response) => {
      response.resume();
      resolve(String(response.headers['set-cookie']).split(';')[0] ?? '');
    }).on('error', reject);
  });
  const { origin, host } = new URL(address);
  const socket = new WebSocket(`ws://${host}/workbench`, {
    headers: { Cookie: cookie, Origin: origin },
    // As in a browser, where what waits on one message goes on before the next one is heard.
    allowSynchronousEvents: false,
  });
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  return { workbench: createClient(socketPipe(socket)), leave: () => socket.terminate() };
}

/** Amberwick with a panel of one page, and someone who uses it. */
export async function start(dataFolder: string, options: Partial<ServeOptions> = {}) {
  const panelFolder = join(emptyFolder(), 'panel');
  mkdirSync(panelFolder);
  writeFileSync(join(panelFolder, 'index.html'), '<!doctype html>');
  const printed: string[] = [];
  const served = await serve({
    version: '1.2.3',
    panelFolder,
    dataFolder,
    print: (line) => printed.push(line),
    ...options,
  });
  if (!served.ok) throw new Error(served.error);
  const { workbench, leave } = await enter(served.address);
  const heard: { name: EventName; data: unknown }[] = [];
  const waiters: (() => void)[] = [];
  for (const name of ['board', 'live', 'lamps', 'glow', 'row', 'clock', 'log'] as const) {
    workbench.on(name, (data) => {
      heard.push({ name, data });
      for (const wake of waiters.splice(0)) wake();
    });
  }
  /** The next event, from now on, that a test waits for. */
  const next = async <N extends EventName>(
    name: N,
    wanted: (data: Events[N]) => boolean,
    since = heard.length,
  ): Promise<Events[N]> => {
    for (let from = since; ; ) {
      for (; from < heard.length; from++) {
        const event = heard[from];
        if (event?.name === name && wanted(event.data as Events[N])) return event.data as Events[N];
      }
      await new Promise<void>((resolve) => waiters.push(resolve));
    }
  };
  /** The value of a call that works. */
  const done = async <N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResults[N]> => {
    const outcome = await workbench.call(name, args);
    if (!outcome.ok) throw new Error(`${name}: ${outcome.problem.what} (${outcome.problem.detail ?? ''})`);
    return outcome.value;
  };
  const board = async (): Promise<BoardState> => {
    const state = (await done('look', {})).boards[0];
    if (!state) throw new Error('no board');
    return state;
  };
  const settled = async (wanted: (state: BoardState) => boolean): Promise<BoardState> => {
    const since = heard.length;
    const now = await board();
    return wanted(now) ? now : next('board', wanted, since);
  };
  return {
    workbench,
    printed,
    heard,
    next,
    done,
    board,
    settled,
    close: async () => {
      leave();
      await served.close();
    },
  };
}
