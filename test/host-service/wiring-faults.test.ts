import { describe, expect, test } from 'vitest';
import { virtualPath } from '../../electron/host/service/virtual-boards.ts';
import type { WiringFault } from '../../shared/electrics/model.ts';
import type { LayoutGlow } from '../../shared/workbench/contract.ts';
import { rig } from './rig.ts';

async function onVirtual() {
  const bench = rig();
  const outcome = await bench.call('connect', { board: 'town', port: virtualPath('town') });
  if (!outcome.ok) throw new Error(outcome.problem.what);
  const unit = bench.units.get('town');
  if (!unit) throw new Error('no virtual board');
  const set = (...faults: WiringFault[]) => bench.call('setFaults', { board: 'town', faults });
  return { ...bench, unit, set };
}

/** The example with the outputs of two lamps exchanged in the plan. */
const exchanged = (text: string, a: string, b: string) =>
  text.replace(`"${a}"`, '"?"').replace(`"${b}"`, `"${a}"`).replace('"?"', `"${b}"`);

describe('wiring faults of a virtual board', () => {
  test('are set, told and written down, and reach the wires', async () => {
    const { set, unit, board, logged, logFile } = await onVirtual();
    expect(board().wiringFaults).toEqual([]);
    const faults: WiringFault[] = [
      { kind: 'open', lamp: 2 },
      { kind: 'swapped', lamp: 0, with: 3 },
    ];
    expect((await set(...faults)).ok).toBe(true);
    expect(board().wiringFaults).toEqual(faults);
    expect(unit.circuit?.faults).toEqual(faults);
    expect(logged().at(-1)).toBe('Set 2 wiring faults on the virtual Town board.');
    // The log file says which.
    expect(logFile().at(-1)?.data).toEqual({
      faults: 2,
      what:
        'Market Cross, Fore Street green (D4) has no connection; ' +
        'Market Cross, Fore Street red (D2) and Market Cross, Quay Hill red (D5) have changed places',
    });
    await set();
    expect(board().wiringFaults).toEqual([]);
    expect(unit.circuit?.faults).toEqual([]);
    expect(logged().at(-1)).toBe('Mended the wiring of the virtual Town board.');
  });

  test('that fit no lamp are refused, and what was set stays', async () => {
    const { set, board } = await onVirtual();
    await set({ kind: 'short', lamp: 1 });
    for (const stray of [
      { kind: 'open', lamp: 99 },
      { kind: 'open', lamp: 0, head: 2 },
      { kind: 'bridged', lamp: 1, with: 1 },
      { kind: 'swapped', lamp: 1, with: 40 },
    ] as const) {
      expect(await set(stray)).toMatchObject({ ok: false, problem: { code: 'noSuchFault' } });
    }
    expect(board().wiringFaults).toEqual([{ kind: 'short', lamp: 1 }]);
  });

  test('cannot be set on a board that is not there', async () => {
    const { call } = rig();
    const refused = await call('setFaults', { board: 'town', faults: [] });
    expect(refused).toMatchObject({ ok: false, problem: { code: 'noFaultsHere' } });
  });

  test('a plan that says where the wires really end mends the exchange, and only that', async () => {
    const { set, call, board, unit } = await onVirtual();
    await set({ kind: 'swapped', lamp: 0, with: 3 }, { kind: 'dim', lamp: 1 });
    const opened = await call('look', {});
    if (!opened.ok) throw new Error();
    const text = exchanged(opened.value.document.text, 'D2', 'D5');
    await call('changeText', { text, what: 'Exchanged two wires in the plan.' });
    expect(board().wiringFaults).toEqual([{ kind: 'dim', lamp: 1 }]);
    expect(unit.circuit?.faults).toEqual([{ kind: 'dim', lamp: 1 }]);
    expect(unit.circuit?.loads[0]?.outputName).toBe('D5');
  });

  test('another layout has none', async () => {
    const { set, call, board } = await onVirtual();
    await set({ kind: 'dim', lamp: 1 });
    await call('openExample', {});
    expect(board().wiringFaults).toEqual([]);
  });

  test('what the lamps show is told by lamp, and in the live state', async () => {
    const { unit, told, host } = await onVirtual();
    unit.onGlow([['lit', 'dark']]);
    const events = told.filter(({ name }) => name === 'glow').map(({ data }) => data);
    const [{ board, glow } = { board: '', glow: [] }] = events as { board: string; glow: LayoutGlow }[];
    expect(events).toHaveLength(1);
    expect(board).toBe('town');
    expect(glow[0]).toEqual(['lit', 'dark']);
    expect(glow).toHaveLength(14);
    const scene = await host.handlers.look({});
    if (!scene.ok) throw new Error();
    expect(scene.value.live[0]?.glow?.[0]).toEqual(['lit', 'dark']);
  });
});
