import { describe, expect, it } from 'vitest';
import { createClient } from '../../shared/workbench/client.ts';
import type { EventName, Events } from '../../shared/workbench/contract.ts';
import { CALLS } from '../../shared/workbench/contract.ts';
import { type Handlers, servePipe } from '../../shared/workbench/serve.ts';
import type { MessagePipe } from '../../shared/workbench/wire.ts';

/** Two ends of one pipe; each message crosses as JSON, as it does on a socket. */
function pipes() {
  type End = { listeners: ((message: unknown) => void)[]; closers: (() => void)[] };
  const panel: End = { listeners: [], closers: [] };
  const host: End = { listeners: [], closers: [] };
  const end = (own: End, other: End): MessagePipe => ({
    send: (message) => {
      const text = JSON.stringify(message);
      queueMicrotask(() => {
        for (const listener of other.listeners) listener(JSON.parse(text));
      });
    },
    onMessage: (listener) => own.listeners.push(listener),
    onClose: (listener) => own.closers.push(listener),
  });
  const close = (): void => {
    for (const closer of [...panel.closers, ...host.closers]) closer();
  };
  return { panel: end(panel, host), host: end(host, panel), close };
}

/** Handlers that say what they were asked; some misbehave. */
function served(overrides: Partial<Record<keyof Handlers, unknown>> = {}) {
  const asked: [string, unknown][] = [];
  const handlers = Object.fromEntries(
    Object.keys(CALLS).map((name) => [
      name,
      overrides[name as keyof Handlers] ??
        ((args: unknown) => {
          asked.push([name, args]);
          return { ok: true, value: null };
        }),
    ]),
  ) as unknown as Handlers;
  const tellers = new Set<(name: EventName, data: never) => void>();
  const line = pipes();
  servePipe(line.host, handlers, (listener) => {
    tellers.add(listener);
    return () => tellers.delete(listener);
  });
  const tell = <N extends EventName>(name: N, data: Events[N]): void => {
    for (const teller of tellers) teller(name, data as never);
  };
  return { ...line, workbench: createClient(line.panel), asked, tell, tellers };
}

describe('the interface over a pipe', () => {
  it('carries a call to its handler and the outcome back', async () => {
    const { workbench, asked } = served({
      nudge: (args: { ms: number }) => ({ ok: true, value: { ms: args.ms + 10 } }),
    });
    expect(await workbench.call('nudge', { board: 'town', site: 0, dial: 2, ms: 18_000 })).toEqual({
      ok: true,
      value: { ms: 18_010 },
    });
    await workbench.call('remark', { text: 'The amber looks short.' });
    expect(asked).toEqual([['remark', { text: 'The amber looks short.' }]]);
  });

  it('keeps answers apart that come in another order', async () => {
    let finishSend: (value: unknown) => void = () => {};
    const { workbench } = served({
      send: () => new Promise((resolve) => (finishSend = resolve)),
      step: () => ({ ok: true, value: { row: 3 } }),
    });
    const sending = workbench.call('send', { board: 'town' });
    expect(await workbench.call('step', { board: 'town', site: 1 })).toEqual({ ok: true, value: { row: 3 } });
    finishSend({ ok: true, value: 'sent' });
    expect(await sending).toEqual({ ok: true, value: 'sent' });
  });

  it('lets no handler see arguments that are not its own', async () => {
    const { workbench, asked } = served();
    const bad: [string, unknown][] = [
      ['nudge', { board: 'town', site: 0, dial: 2, ms: '18000' }],
      ['nudge', { board: 'town', site: 0, dial: 2, ms: 18_000.5 }],
      ['nudge', { board: 'town', site: 0, dial: 2 }],
      ['master', { board: 'town', state: 'blink' }],
      ['connect', { board: '', port: 'virtual:town' }],
      ['look', { extra: true }],
      ['look', null],
      ['erase', {}],
      ['constructor', {}],
      ['__proto__', {}],
    ];
    for (const [name, args] of bad) {
      const outcome = await workbench.call(name as 'look', args as Record<string, never>);
      expect([name, outcome.ok, outcome.ok ? null : outcome.problem.code]).toEqual([name, false, 'badRequest']);
    }
    expect(asked).toEqual([]);
  });

  it('turns what a handler throws into a problem', async () => {
    const { workbench } = served({
      keep: () => {
        throw new Error('no such slot');
      },
      putBack: () => Promise.reject(new Error('lost')),
    });
    const keep = await workbench.call('keep', { board: 'town' });
    expect(keep).toMatchObject({ ok: false, problem: { code: 'hostFailed', detail: 'keep: no such slot' } });
    const back = await workbench.call('putBack', { board: 'town' });
    expect(back).toMatchObject({ ok: false, problem: { code: 'hostFailed', detail: 'putBack: lost' } });
  });

  it('tells events to those who listen, until they stop', async () => {
    const { workbench, tell } = served();
    const seen: number[] = [];
    const quiet = workbench.on('clock', ({ ms }) => seen.push(ms));
    tell('clock', { board: 'town', ms: 500, pace: 1 });
    tell('row', { board: 'town', ms: 510, site: 0, row: 1 });
    tell('clock', { board: 'town', ms: 1000, pace: 1 });
    await new Promise((resolve) => setImmediate(resolve));
    quiet();
    tell('clock', { board: 'town', ms: 1500, pace: 1 });
    await new Promise((resolve) => setImmediate(resolve));
    expect(seen).toEqual([500, 1000]);
  });

  it('answers everything that waits when the pipe closes, and says so from then on', async () => {
    const { workbench, close, tellers } = served({ send: () => new Promise(() => {}) });
    const sending = workbench.call('send', { board: 'town' });
    close();
    expect(await sending).toMatchObject({ ok: false, problem: { code: 'hostGone' } });
    expect(await workbench.call('look', {})).toMatchObject({ ok: false, problem: { code: 'hostGone' } });
    expect(tellers.size).toBe(0);
  });

  it('is not disturbed by messages of other kinds', async () => {
    const { workbench, panel, asked } = served();
    for (const noise of [null, 7, 'call', [], { type: 'call' }, { type: 'call', id: '1', name: 'look', args: {} }]) {
      panel.send(noise as never);
    }
    expect(await workbench.call('look', {})).toEqual({ ok: true, value: null });
    expect(asked).toEqual([['look', {}]]);
  });
});
