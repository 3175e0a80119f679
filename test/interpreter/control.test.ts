import { describe, expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { aspects, film } from '../fixtures/film.ts';
import { always, board, input, jump, program, site, after as timed, until } from '../fixtures/sites/build.ts';
import { levelCrossing } from '../fixtures/sites/level-crossing.ts';
import { pelican } from '../fixtures/sites/pelican.ts';
import { twoStage } from '../fixtures/sites/two-stage.ts';

/** The two-stage junction after so many ms: greens of 18 and 12 s. */
function running(ms: number): Interpreter {
  const junction = new Interpreter(twoStage);
  junction.start();
  junction.run(ms);
  return junction;
}

describe('a nudge', () => {
  it('moves the running deadline and nothing else', () => {
    expect(film(twoStage, 30_000, [[10_000, (it) => it.setDial(0, 0, 20_000)]])).toEqual([
      '1 ..G R..',
      '20000 .A. R..',
      '23000 R.. R..',
      '24000 R.. RA.',
      '26000 R.. ..G',
    ]);
  });

  it('to a time that has gone by ends the interval in the next tick', () => {
    expect(film(twoStage, 12_000, [[10_000, (it) => it.setDial(0, 0, 8000)]])).toEqual(['1 ..G R..', '10001 .A. R..']);
  });

  it('outside the limits is refused, between two time words goes to the nearer', () => {
    const junction = running(1000);
    expect([6999, 120_001, 7000, 18_004, 18_005].map((ms) => junction.setDial(0, 0, ms))).toEqual([
      null,
      null,
      7000,
      18_000,
      18_010,
    ]);
    expect(junction.dial(0, 0)).toBe(18_010);
    expect(junction.setDial(1, 0, 18_000)).toBeNull();
    expect(junction.setDial(0, 5, 18_000)).toBeNull();
  });

  it('of a flash ends the running part when its time has gone by', () => {
    // Reds from 3,050 + 5,000; the lit part is shortened at 8,250 after 200 ms: not yet over at 340.
    const lines = film(levelCrossing, 9000, [
      [5000, (it) => it.setRaw(0, true)],
      [8250, (it) => it.setDial(0, 2, 340)],
    ]);
    expect(lines).toEqual(['5050 A..', '8050 .L.', '8390 ..R', '8790 .L.']);
  });
});

describe('pause, hold and step', () => {
  it('a pause freezes the time in the interval, and it goes on afterwards', () => {
    const lines = film(twoStage, 30_000, [
      [10_000, (it) => it.pause()],
      [15_000, (it) => it.runOn()],
    ]);
    expect(lines.slice(0, 2)).toEqual(['1 ..G R..', '23000 .A. R..']);
  });

  it('flashing lamps flash on in a pause', () => {
    const lines = film(levelCrossing, 11_000, [
      [5000, (it) => it.setRaw(0, true)],
      [9000, (it) => it.pause()],
    ]);
    expect(lines.slice(-3)).toEqual(['10050 ..R', '10450 .L.', '10850 ..R']);
  });

  it('a held site stands still while another goes on', () => {
    const two = {
      ...twoStage,
      ...board({ programs: twoStage.programs, sites: [...twoStage.sites, ...twoStage.sites] }),
    };
    const it = new Interpreter(two);
    it.start();
    it.run(10_000);
    it.hold(0, true);
    it.run(20_000);
    expect([it.row(0), it.elapsed(0), it.row(1), it.elapsed(1)]).toEqual([0, 10_000, 4, 6000]);
    it.hold(0, false);
    it.run(8000);
    expect([it.row(0), it.elapsed(0)]).toEqual([1, 0]);
  });

  it('a step ends the interval in the next tick, whatever its rule, also in a pause', () => {
    const it = running(10_000);
    it.pause();
    expect(it.step(0)).toBe(0);
    expect(it.row(0)).toBe(0);
    it.tick();
    expect([it.row(0), it.elapsed(0), aspects(twoStage, it.lit)]).toEqual([1, 0, '.A. R..']);
    it.run(60_000);
    expect([it.row(0), it.elapsed(0)]).toEqual([1, 0]);
  });

  it('again starts from the beginning with demands kept', () => {
    const crossing = new Interpreter(pelican);
    crossing.start();
    crossing.setRaw(0, true);
    crossing.run(25_000);
    crossing.setRaw(0, false);
    crossing.press(0, 'on');
    crossing.run(10);
    crossing.again(0);
    expect([crossing.row(0), crossing.elapsed(0), crossing.demands[0]]).toEqual([0, 0, true]);
  });

  it('a host that falls silent leaves nothing behind', () => {
    const it = running(5000);
    it.pause();
    it.hold(0, true);
    it.override('all', 'on');
    it.setMaster('off');
    it.release();
    it.run(14_000);
    expect([it.row(0), it.elapsed(0), it.master, aspects(twoStage, it.lit)]).toEqual([1, 1000, 'run', '.A. R..']);
  });
});

describe('the master state', () => {
  const night = program({
    name: 'signal',
    heads: ['road RAG'],
    dials: { green: [100, 10_000] },
    fault: '.a.',
    safe: 'R..',
    rows: [timed(0, '..G'), timed(0, '.A.')],
  });
  const sites = (['run', 'fault', 'safe', 'dark'] as const).map((atNight) => site(atNight, { atNight, dials: [1000] }));
  const switched = board({
    programs: [night],
    sites,
    inputs: [input('night', { debounce: 0 }), input('off', { debounce: 0 })],
    nightInput: 0,
    offInput: 1,
  });
  const shown = (it: Interpreter) =>
    [0, 3, 6, 9].map((first) => [0, 1, 2].map((lamp) => (it.lit[first + lamp] ? 'RAG'[lamp] : '.')).join('')).join(' ');

  it('at night each site does as its flags say; the fault aspect flashes 500 ms', () => {
    const it = new Interpreter(switched);
    it.start();
    it.setRaw(0, true);
    it.run(1);
    expect([it.master, shown(it)]).toEqual(['night', '..G .A. R.. ...']);
    it.run(500);
    expect(shown(it)).toBe('..G ... R.. ...');
    it.run(500);
    expect(shown(it)).toBe('.A. .A. R.. ...');
  });

  it('off wins over night, the host over both, and time goes on beneath', () => {
    const it = new Interpreter(switched);
    it.start();
    it.setRaw(0, true);
    it.setRaw(1, true);
    it.run(1);
    expect([it.master, shown(it)]).toEqual(['off', '... ... ... ...']);
    it.setMaster('safe');
    it.run(500);
    expect(shown(it)).toBe('R.. R.. R.. R..');
    it.setMaster('run');
    it.run(500);
    expect([it.now, shown(it)]).toEqual([1001, '.A. .A. .A. .A.']);
  });

  it('off and safe put out the WAIT lamp but not the demand', () => {
    const it = new Interpreter(pelican);
    it.start();
    it.press(0, 'on');
    it.run(1);
    const wait = () => [it.lit[5], it.demands[0]];
    expect(wait()).toEqual([true, true]);
    for (const master of ['off', 'safe'] as const) {
      it.setMaster(master);
      it.run(1);
      expect(wait()).toEqual([false, true]);
    }
    it.setMaster('night');
    it.run(1);
    expect(wait()).toEqual([true, true]);
  });
});

describe('overrides of lamps', () => {
  it('win over everything and end at auto', () => {
    const it = running(1000);
    it.setMaster('off');
    it.override(0, 'on');
    it.run(1);
    expect(aspects(twoStage, it.lit)).toBe('R.. ...');
    it.setMaster('auto');
    it.override('all', 'off');
    it.run(1);
    expect(aspects(twoStage, it.lit)).toBe('... ...');
    it.override('all', 'auto');
    it.run(1);
    expect(aspects(twoStage, it.lit)).toBe('..G R..');
  });

  it('two greens by override are no fault of the table', () => {
    const it = running(1000);
    it.override('all', 'on');
    it.run(1);
    expect([aspects(twoStage, it.lit), it.fault(0)]).toEqual(['RAG RAG', 'none']);
  });
});

describe('faults', () => {
  it('two conflicting lamps about to be lit: fault aspect in the same tick, three returns, then until again', () => {
    // Not consistent, so no board would take it: the watch is for damage.
    const damaged = {
      ...twoStage,
      programs: twoStage.programs.map((it) => ({ ...it, rows: [timed(0, '..G R..'), timed(1, '..G ..G')] })),
    };
    const faults: string[] = [];
    const it = new Interpreter(damaged, { fault: (ms, where, fault) => faults.push(`${ms} ${where} ${fault}`) });
    it.start();
    it.run(17_999);
    expect(aspects(damaged, it.lit)).toBe('..G R..');
    it.run(1);
    expect([aspects(damaged, it.lit), it.fault(0)]).toEqual(['... ...', 'conflict']);
    // 5 s of fault aspect, 5 s of safe aspect, then the start row.
    it.run(4999);
    expect(aspects(damaged, it.lit)).toBe('... ...');
    it.run(1);
    expect(aspects(damaged, it.lit)).toBe('R.. R..');
    it.run(4999);
    expect([aspects(damaged, it.lit), it.fault(0)]).toEqual(['R.. R..', 'conflict']);
    it.run(1);
    expect([aspects(damaged, it.lit), it.fault(0)]).toEqual(['..G R..', 'none']);
    it.run(200_000);
    expect(faults).toEqual(['18000 0 conflict', '46000 0 conflict', '74000 0 conflict', '102000 0 conflict']);
    expect(aspects(damaged, it.lit)).toBe('... ...');
    it.again(0);
    it.run(1);
    expect([aspects(damaged, it.lit), it.fault(0)]).toEqual(['..G R..', 'none']);
    // It stays, for all a new span of 4,096 s.
    it.run(4_200_000);
    expect([aspects(damaged, it.lit), it.fault(0), faults.length]).toEqual(['... ...', 'conflict', 8]);
  });

  /** After 1 s as many jumps as wanted, then an interval again. */
  function jumps(count: number) {
    const steps = Array.from({ length: count }, (_, index) => jump(always, index + 2));
    const chain = program({
      name: 'jumps',
      heads: ['lamp A'],
      dials: { time: [10, 5000] },
      fault: '.',
      safe: '.',
      rows: [timed(0, 'A'), ...steps, timed(0, '.')],
    });
    return board({ programs: [chain], sites: [site('lamp', { dials: [1000] })] });
  }

  it('sixteen transitions in a tick are allowed, a seventeenth is a fault', () => {
    const [fine, stuck] = [jumps(15), jumps(16)].map((table) => {
      const it = new Interpreter(table);
      it.start();
      it.run(1000);
      return [it.fault(0), it.row(0), it.lit[0]];
    });
    expect(fine).toEqual(['none', 16, false]);
    expect(stuck).toEqual(['stuck', 16, false]);
  });

  it('a site that never reaches an interval is at fault from the start, before the first tick', () => {
    const faults: string[] = [];
    const circle = program({
      name: 'circle',
      heads: ['lamp A'],
      dials: {},
      fault: 'A',
      safe: '.',
      rows: [jump(always, 0)],
    });
    const table = board({ programs: [circle], sites: [site('lamp', { dials: [], offset: 5000 })] });
    const it = new Interpreter(table, { fault: (ms, where, fault) => faults.push(`${ms} ${where} ${fault}`) });
    it.start(100);
    expect(faults).toEqual(['100 0 stuck']);
    it.run(1);
    expect(it.lit[0]).toBe(true);
  });
});

describe('a delayed start', () => {
  it('shows its first interval but does not flash before the time has come; a new flash begins lit', () => {
    const beacon = program({
      name: 'beacon',
      heads: ['x SF'],
      dials: { time: [100, 5000] },
      flash: { on: 0, off: 0 },
      fault: '..',
      safe: '..',
      rows: [until(0, always, 'Sf'), timed(0, '.F')],
    });
    const table = board({ programs: [beacon], sites: [site('x', { dials: [400], offset: 1000 })] });
    const it = new Interpreter(table);
    it.start();
    expect(it.elapsed(0)).toBe(-1000);
    expect(film(table, 1800)).toEqual(['1 S.', '1000 SF', '1400 .F', '1800 SF']);
  });
});

describe('elapsed time', () => {
  it('stops at 2^31 - 1 ms, so the minimum of a long wait stays passed', () => {
    const it = new Interpreter(levelCrossing);
    it.start();
    it.run(2 ** 31 - 1);
    expect(it.elapsed(0)).toBe(2 ** 31 - 1);
    it.run(2 ** 32);
    expect(it.elapsed(0)).toBe(2 ** 31 - 1);
  });
});
