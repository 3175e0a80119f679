import { describe, expect, it } from 'vitest';
import { settle } from '../host/fake-clock.ts';
import { connected, PORT, type Rig } from './rig.ts';
import type { TableBoard } from './table-board.ts';

/** A board that can measure; `told` is what it says of its supply. */
async function measuring(change: (board: TableBoard) => void = () => {}) {
  const told: { supply: readonly (string | number)[] } = { supply: [5006, 5006, '-'] };
  const bench = await connected((board) => {
    board.firmware = '1.2.0';
    board.script = {
      pulse: () => [],
      probe: () => [1, 371, 1017],
      supply: () => told.supply,
      meter: () => [1084],
    };
    change(board);
  });
  expect(bench.outcome.ok).toBe(true);
  return { ...bench, say: told };
}

const asked = ({ real }: { real: TableBoard }, word: string) =>
  real.line.heard.filter((request) => request.word === word).map(({ args }) => args.join(' '));

/** Lets the supply be looked at once. */
const look = ({ clock }: Rig) => clock.advance(5500);

describe('what hangs on a pin', () => {
  it('is measured, with the polarity of its lamp', async () => {
    const bench = await measuring();
    expect(await bench.call('probe', { board: 'town', pin: 14, activeLow: false })).toEqual({
      ok: true,
      value: { level: 1, rest: 371, lit: 1017 },
    });
    await bench.call('probe', { board: 'town', pin: 15, activeLow: true });
    expect(asked(bench, 'probe')).toEqual(['14 1', '15 0']);
  });

  it('is not measured while lamps are lit, nor where something else hangs', async () => {
    const refusal = { no: 11 };
    const bench = await measuring((board) => {
      board.script.probe = () => refusal;
    });
    const probe = () => bench.call('probe', { board: 'town', pin: 14, activeLow: false });
    expect(await probe()).toMatchObject({ ok: false, problem: { code: 'lampsLit' } });
    refusal.no = 23;
    expect(await probe()).toMatchObject({
      ok: false,
      problem: { code: 'pinNotMeasured', what: 'Town board did not measure A0.' },
    });
    refusal.no = 2;
    expect(await probe()).toMatchObject({ ok: false, problem: { code: 'refused', detail: 'code 2' } });
  });

  it('is lit for a moment, where nothing of the table hangs', async () => {
    const bench = await measuring();
    const pulse = (output: number) => bench.call('pulse', { board: 'town', output, high: true, forMs: 500 });
    expect(await pulse(19)).toEqual({ ok: true, value: null });
    expect(await bench.call('pulse', { board: 'town', output: 130, high: false, forMs: 20 })).toMatchObject({
      ok: true,
    });
    expect(asked(bench, 'pulse')).toEqual(['19 1 500', '130 0 20']);
    bench.real.line.replies.pulse = () => ({ no: 23 });
    expect(await pulse(130)).toMatchObject({
      ok: false,
      problem: { code: 'outputNotFree', what: 'Town board did not light bit 2.' },
    });
  });
});

describe('firmware that cannot measure', () => {
  it('is said to need an update, and nothing is asked of it', async () => {
    const bench = await measuring((board) => {
      board.firmware = '1.1.0';
    });
    for (const outcome of [
      await bench.call('probe', { board: 'town', pin: 14, activeLow: false }),
      await bench.call('pulse', { board: 'town', output: 19, high: true, forMs: 10 }),
      await bench.call('supply', { board: 'town', meterMillivolts: 5000 }),
    ]) {
      expect(outcome).toMatchObject({ ok: false, problem: { code: 'cannotMeasure' } });
    }
    await look(bench);
    expect(['probe', 'pulse', 'supply', 'meter'].flatMap((word) => asked(bench, word))).toEqual([]);
  });

  it('is believed when it says so itself', async () => {
    const bench = await measuring((board) => {
      board.script.supply = () => ({ no: 1 });
    });
    expect(await bench.call('supply', { board: 'town' })).toMatchObject({
      ok: false,
      problem: { code: 'cannotMeasure', next: expect.stringContaining('Update the firmware') },
    });
    await look(bench);
    await look(bench);
    expect(asked(bench, 'supply')).toHaveLength(2);
  });

  it('or no board at all has its problem', async () => {
    const bench = await measuring();
    await bench.call('disconnect', { board: 'town' });
    expect(await bench.call('supply', { board: 'town' })).toMatchObject({
      ok: false,
      problem: { code: 'notConnected' },
    });
  });
});

describe('the supply', () => {
  it('is told, with its least since somebody asked, looks in between included', async () => {
    const bench = await measuring();
    const ask = async () => bench.call('supply', { board: 'town' });
    await ask();
    bench.say.supply = [5000, 4700, '-'];
    await look(bench);
    bench.say.supply = [5001, 4990, 1090];
    expect(await ask()).toEqual({ ok: true, value: { millivolts: 5001, least: 4700, reference: 1090 } });
    expect(await ask()).toEqual({ ok: true, value: { millivolts: 5001, least: 4990, reference: 1090 } });
  });

  it('is looked at every five seconds or so, and the state of the board carries it', async () => {
    const bench = await measuring();
    expect(bench.board().supplyMillivolts).toBe(4980);
    bench.say.supply = [5028, 5006, '-'];
    await look(bench);
    expect(bench.board().supplyMillivolts).toBe(5028);
    for (let minute = 0; minute < 60; minute += 5) await bench.clock.advance(5000);
    expect(asked(bench, 'supply').length).toBeGreaterThanOrEqual(12);
    expect(asked(bench, 'supply').length).toBeLessThanOrEqual(14);
  });

  it('is calibrated by a meter, which is logged', async () => {
    const bench = await measuring();
    bench.say.supply = [4970, 4950, 1084];
    expect(await bench.call('supply', { board: 'town', meterMillivolts: 4970 })).toEqual({
      ok: true,
      value: { millivolts: 4970, least: 4950, reference: 1084 },
    });
    expect(asked(bench, 'meter')).toEqual(['4970']);
    expect(bench.log.entries.at(-1)).toMatchObject({
      kind: 'power',
      text: 'Calibrated the supply of Town board by a meter that showed 4970 mV: its reference is 1084 mV.',
      data: { meterMillivolts: 4970, reference: 1084 },
    });
    bench.real.line.replies.meter = () => ({ no: 4 });
    expect(await bench.call('supply', { board: 'town', meterMillivolts: 3100 })).toMatchObject({
      ok: false,
      problem: { code: 'meterUnlikely' },
    });
  });
});

describe('a supply that sags', () => {
  const sags = ({ logged }: Rig) => logged().filter((text) => text.includes('supply'));
  const BEGAN =
    /^The supply of Town board sagged to (\d+) mV, (\d+) % below its highest of 5006 mV; up to (\d+) lamps were lit/;

  it('is told once, with the lamps that were lit, and anew when it has recovered', async () => {
    const bench = await measuring();
    await look(bench);
    // 7.9 % below.
    bench.say.supply = [4900, 4611, '-'];
    await look(bench);
    expect(sags(bench)).toEqual([]);
    bench.real.line.event('lamps', 9000, '0FFF');
    await settle();
    bench.say.supply = [4800, 4550, '-'];
    await look(bench);
    await look(bench);
    expect(sags(bench)).toHaveLength(1);
    expect(BEGAN.exec(sags(bench)[0] ?? '')?.slice(1)).toEqual(['4550', '9', '12']);
    expect(bench.log.entries.at(-1)).toMatchObject({
      kind: 'problem',
      data: { millivolts: 4550, highest: 5006, lit: 12 },
    });
    // Not yet over.
    bench.say.supply = [4790, 4790, '-'];
    await look(bench);
    expect(sags(bench)).toHaveLength(1);
    bench.say.supply = [4990, 4990, '-'];
    await look(bench);
    expect(sags(bench).at(-1)).toBe('The supply of Town board was back at 4990 mV.');
    bench.say.supply = [4990, 4400, '-'];
    await look(bench);
    expect(sags(bench)).toHaveLength(3);
  });

  it('does not count what was before somebody watched, nor another scale', async () => {
    const bench = await measuring();
    bench.say.supply = [5006, 3000, '-'];
    await look(bench);
    bench.say.supply = [4500, 4500, 990];
    await bench.call('supply', { board: 'town', meterMillivolts: 4500 });
    await look(bench);
    expect(sags(bench)).toEqual([expect.stringContaining('Calibrated')]);
  });

  it('is watched anew on a board that was plugged in again', async () => {
    const bench = await measuring();
    await look(bench);
    await bench.call('disconnect', { board: 'town' });
    bench.say.supply = [4500, 4500, '-'];
    await bench.call('connect', { board: 'town', port: PORT });
    await look(bench);
    await look(bench);
    expect(sags(bench)).toEqual([]);
    expect(bench.board().supplyMillivolts).toBe(4500);
  });
});
