import { readFileSync, rmSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { buildShell } from '../../electron/shell/build.ts';
import type { Workbench } from '../../shared/workbench/contract.ts';
import { contextBridge, ipcRenderer } from './stand-in.ts';

vi.mock('electron', () => import('./stand-in.ts'));

let bridge: Workbench;
const invoked: unknown[][] = [];

beforeAll(async () => {
  ipcRenderer.invoke = async (...args: unknown[]) => {
    invoked.push(args);
    return { ok: true, value: null };
  };
  await import('../../electron/preload.ts');
  bridge = contextBridge.exposed.get('amberwick') as Workbench;
});

describe('the preload bridge', () => {
  it('exposes two functions and nothing else', () => {
    expect([...contextBridge.exposed.keys()]).toEqual(['amberwick']);
    expect(Object.keys(bridge).sort()).toEqual(['call', 'on']);
  });

  it('lets calls of the contract through on one channel, and no others', async () => {
    expect(await bridge.call('remark', { text: 'Looks right.' })).toEqual({ ok: true, value: null });
    expect(invoked).toEqual([['amberwick:call', 'remark', { text: 'Looks right.' }]]);
    for (const name of ['erase', 'constructor', 'amberwick:event', 7]) {
      expect(await bridge.call(name as 'look', {})).toMatchObject({ ok: false, problem: { code: 'badRequest' } });
    }
    expect(invoked).toHaveLength(1);
  });

  it('turns a lost host into a problem', async () => {
    const answer = ipcRenderer.invoke;
    ipcRenderer.invoke = () => Promise.reject(new Error('channel closed'));
    expect(await bridge.call('look', {})).toMatchObject({ ok: false, problem: { code: 'hostGone' } });
    ipcRenderer.invoke = answer;
  });

  it('hands over the data of an event, never the event of Electron', () => {
    const seen: unknown[][] = [];
    const quiet = bridge.on('clock', (...data) => seen.push(data));
    bridge.on('sender' as 'clock', (...data) => seen.push(data));
    ipcRenderer.emit('amberwick:event', { sender: 'secret' }, 'clock', { board: 'town', ms: 500, pace: 1 });
    ipcRenderer.emit('amberwick:event', { sender: 'secret' }, 'sender', {});
    quiet();
    ipcRenderer.emit('amberwick:event', { sender: 'secret' }, 'clock', { board: 'town', ms: 1000, pace: 1 });
    expect(seen).toEqual([[{ board: 'town', ms: 500, pace: 1 }]]);
  });

  it('is built as one CommonJS file that asks for Electron alone, as a sandbox demands', async () => {
    const out = await mkdtemp(join(tmpdir(), 'preload-'));
    await buildShell(out, ['preload']);
    const source = readFileSync(join(out, 'preload.cjs'), 'utf8');
    rmSync(out, { recursive: true });
    const required: string[] = [];
    const exposed: string[] = [];
    const electron = {
      contextBridge: { exposeInMainWorld: (name: string) => exposed.push(name) },
      ipcRenderer: { on: () => {}, invoke: async () => undefined },
    };
    runInNewContext(source, {
      require: (name: string) => {
        required.push(name);
        return electron;
      },
      module: { exports: {} },
      exports: {},
    });
    expect(new Set(required)).toEqual(new Set(['electron']));
    expect(exposed).toEqual(['amberwick']);
  });
});
