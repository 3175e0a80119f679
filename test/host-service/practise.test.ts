/** From the panel's side, on the shipped firmware: faults set in the wires of the virtual layout are found by probes and by eye. */
import { expect, it } from 'vitest';
import { openDocument } from '../../electron/host/service/document.ts';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { judge } from '../../shared/lampcheck/self-check/judge.ts';
import { emptyFolder, start } from './panel.ts';

it('an open wire, a short and two exchanged lamps are set, measured and seen', async () => {
  const opened = openDocument(EXAMPLE.name, EXAMPLE.text, 1);
  const loads = opened.ok ? (opened.value.boards[0]?.loads ?? []) : [];
  const bench = await start(emptyFolder());
  await bench.settled((state) => state.kept === 'same' && state.task === null);
  await bench.done('beginCheck', { board: 'town', others: 'dark' });
  const kinds = async () => {
    const found: string[] = [];
    for (const load of loads.slice(9)) {
      const reading = await bench.done('probe', { board: 'town', pin: load.output, activeLow: false });
      found.push(judge(load, reading, loads).kind);
    }
    return found;
  };
  const seen = async (lamp: number) => {
    const lighting = bench.heard.length;
    await bench.done('light', { board: 'town', lamp, forMs: 0 });
    const { glow } = await bench.next('glow', (event) => event.glow.flat().includes('lit'), lighting);
    const darkening = bench.heard.length;
    await bench.done('light', { board: 'town', lamp: null, forMs: 0 });
    await bench.next('glow', (event) => event.glow.flat().every((one) => one === 'dark'), darkening);
    return glow.flatMap((heads, index) => (heads.includes('lit') ? [index] : []));
  };

  expect((await kinds()).slice(2)).toEqual(['lamp', 'lamp', 'lamp']);
  expect(await seen(12)).toEqual([12]);

  // Chapel Lane green (A0) open, its red (D11) short, the beacons (A1, A2) exchanged.
  await bench.done('setFaults', {
    board: 'town',
    faults: [
      { kind: 'open', lamp: 11 },
      { kind: 'short', lamp: 9 },
      { kind: 'swapped', lamp: 12, with: 13 },
    ],
  });
  const found = await kinds();
  expect([found[0], ...found.slice(2)]).toEqual(['conducts', 'open', 'lamp', 'lamp']);
  expect(await seen(12)).toEqual([13]);
  const state = await bench.board();
  expect(state.wiringFaults).toHaveLength(3);
  expect((await bench.done('look', {})).live[0]?.glow?.flat()).toContain('dark');
  await bench.close();
});
