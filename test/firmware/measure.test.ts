import { describe, expect, test } from 'vitest';
import { encodeRequest } from '../../shared/link/line.ts';
import type { Chip } from '../../shared/table/format.ts';
import { board, site } from '../fixtures/sites/build.ts';
import { twoStageProgram } from '../fixtures/sites/two-stage.ts';
import { penmarrowBoard, withoutSweep } from '../timing/example.ts';
import { CYCLES_PER_MS, type Edge, Rig } from '../timing/rig.ts';

const penmarrow = withoutSweep(penmarrowBoard().table);
const LAMP_PINS = penmarrow.lamps.map(({ output }) => output);

/** A junction on the first analogue pins, its second lamp lit when low. */
function junction(chip: Chip) {
  const table = board({
    programs: [twoStageProgram],
    sites: [site('junction', { dials: [18_000, 12_000, 3000, 2000, 1000] })],
  });
  const first = chip === 'atmega328p' ? 14 : 54;
  return { ...table, chip, lamps: table.lamps.map((lamp, i) => ({ ...lamp, output: first + i, activeLow: i === 1 })) };
}

function started(table: Parameters<typeof withoutSweep>[0] = penmarrow): Rig {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(300);
  return rig;
}

/** Times at which a pin changes while something is done, microseconds from the first, with its levels. */
function watch(rig: Rig, pin: number, act: () => void): readonly (readonly [microseconds: number, level: string])[] {
  const seen: [number, string][] = [];
  const hear = rig.board.onPin;
  rig.board.onPin = (changed, level, cycles) => {
    hear(changed, level, cycles);
    if (changed === pin && seen.at(-1)?.[1] !== String(level)) seen.push([cycles, String(level)]);
  };
  act();
  rig.board.onPin = hear;
  return seen.map(([cycles, level]) => [Math.round((cycles - (seen[0]?.[0] ?? 0)) / 16), level]);
}

const edges = (rig: Rig, lamp: number) => rig.takeEdges().filter((edge) => edge.lamp === lamp);
const gap = ([from, to]: readonly Edge[]) => ((to?.cycles ?? 0) - (from?.cycles ?? 0)) / CYCLES_PER_MS;

describe.each(['atmega328p', 'atmega2560'] as const)('a probe on the %s', (chip) => {
  const analogue = chip === 'atmega328p' ? 14 : 54;

  function darkened(): Rig {
    const rig = started(junction(chip));
    rig.ask('lamp', 'all', 'off');
    rig.runMs(3);
    expect(rig.lit).toMatch(/^0+$/);
    return rig;
  }

  test('of a lamp that is lit when high: weak pull-up, then lit for 34 us, well under 1 ms in all', () => {
    const rig = darkened();
    const seen = watch(rig, analogue, () => expect(rig.ask('probe', analogue, 1)).toMatch(/^ok [01] \d+ \d+$/));
    expect(seen.map(([, level]) => level)).toEqual(['z', '1', '0']);
    const [, lit = [0], dark = [0]] = seen;
    expect(lit[0]).toBeGreaterThan(200);
    expect(lit[0]).toBeLessThan(230);
    expect(dark[0] - lit[0]).toBeGreaterThanOrEqual(34);
    expect(dark[0] - lit[0]).toBeLessThan(45);
    expect(rig.board.pin(analogue)).toBe(0);
  });

  test('of a lamp that is lit when low: two short pulses, then dark again', () => {
    const rig = darkened();
    const pin = analogue + 1;
    const seen = watch(rig, pin, () => expect(rig.ask('probe', pin, 0)).toMatch(/^ok - \d+ \d+$/));
    expect(seen.map(([, level]) => level)).toEqual(['0', 'z', '0', 'z', '1']);
    const times = seen.map(([at]) => at);
    expect((times[1] ?? 0) - (times[0] ?? 0)).toBeLessThan(45);
    expect((times[3] ?? 0) - (times[2] ?? 0)).toBeLessThan(16);
    expect(times.at(-1)).toBeLessThan(350);
  });

  test('of a digital pin looks at its level only, and leaves alone what it cannot tell', () => {
    const rig = darkened();
    expect(rig.ask('probe', 9, 1)).toBe('ok 1 - -');
    rig.board.setInput(9, 0);
    expect(rig.ask('probe', 9, 1)).toBe('ok 0 - -');
    const seen = watch(rig, 9, () => expect(rig.ask('probe', 9, 0)).toBe('ok - - -'));
    expect(seen).toEqual([]);
    expect(rig.board.pin(9)).toBe('z');
  });

  test('is refused where it does not belong, and while lamps are lit', () => {
    const rig = started(junction(chip));
    expect(rig.ask('probe', 9, 1)).toBe('no 11 -');
    rig.ask('lamp', 'all', 'off');
    rig.runMs(3);
    for (const pin of [0, 1, chip === 'atmega328p' ? 20 : 70, 128]) expect(rig.ask('probe', pin, 1)).toBe('no 23 -');
    expect(rig.ask('pulse', 9, 1, 500)).toBe('ok');
    expect(rig.ask('probe', 10, 1)).toBe('no 11 -');
    rig.runMs(500);
    expect(rig.ask('probe', 10, 1)).toBe('ok 1 - -');
  });

  test('does not spoil the measuring of the supply, however often', () => {
    const rig = darkened();
    const { sent } = flood(rig, 1500, () => ['probe', analogue, 1]);
    expect(sent).toBeGreaterThan(100);
    // 1.1 V of 5 V is 225 of 1,024; a pin that reads full scale would give 1,101 mV.
    expect(rig.ask('supply')).toBe('ok 5006 5006 -');
  });
});

/** Sends requests one after another for so long; each is answered before the next. */
function flood(rig: Rig, ms: number, next: (count: number) => readonly [string, ...(string | number)[]]) {
  const until = rig.board.cycles + ms * CYCLES_PER_MS;
  let sent = 0;
  for (; rig.board.cycles < until; sent++) {
    const [word, ...args] = next(sent);
    expect(rig.ask(word, ...args)).toMatch(/^ok/);
  }
  return { sent };
}

test('probing does not move the edges of the lamps: they come at their tick, none is lost', () => {
  const plain = started();
  const probed = started();
  for (const rig of [plain, probed]) {
    rig.ask('master', 'off');
    rig.runMs(20);
    rig.takeEdges();
    rig.board.runUntil(600 * CYCLES_PER_MS);
  }
  // A single lamp flashes by the host's word, everything else is dark; the other board is probed all the time between.
  const seen = [plain, probed].map((rig, i) => {
    const found: number[] = [];
    for (let round = 0; round < 60; round++) {
      const at = (700 + 40 * round) * CYCLES_PER_MS;
      if (i === 1) {
        while (rig.board.cycles < at - 20 * CYCLES_PER_MS)
          rig.ask('probe', LAMP_PINS[round % LAMP_PINS.length] ?? 2, 1);
      }
      rig.board.runUntil(at);
      const first = rig.edges.length;
      rig.ask('lamp', 3, 'on', 10);
      rig.board.runUntil(at + 18 * CYCLES_PER_MS);
      const [on, off] = rig.edges.slice(first);
      // Where in its millisecond, and how long.
      found.push(((on?.cycles ?? 0) % CYCLES_PER_MS) / 16, gap([on, off].filter((edge) => edge !== undefined)));
    }
    return found;
  });
  const [still = [], busy = []] = seen;
  const lengths = (list: readonly number[]) => list.filter((_, i) => i % 2 === 1);
  const phases = (list: readonly number[]) => list.filter((_, i) => i % 2 === 0);
  for (const ms of lengths(busy)) expect(Math.abs(ms - 10)).toBeLessThan(0.5);
  // An edge comes a part of a millisecond behind its tick, with and without probes.
  expect(Math.max(...phases(busy))).toBeLessThan(Math.max(...phases(still)) + 100);
  expect(Math.min(...phases(busy))).toBeGreaterThan(Math.min(...phases(still)) - 100);
});

describe('lamps and outputs for a time', () => {
  test('a lamp is lit for so many ticks, whatever its sites do meanwhile', () => {
    const rig = started();
    rig.ask('master', 'off');
    rig.runMs(5);
    for (const ms of [10, 150, 1000]) {
      rig.takeEdges();
      expect(rig.ask('lamp', 5, 'on', ms)).toBe('ok');
      rig.runMs(ms + 30);
      const seen = edges(rig, 5);
      expect(seen.map(({ lit }) => lit)).toEqual([true, false]);
      expect(Math.abs(gap(seen) - ms)).toBeLessThan(0.5);
    }
  });

  test('a pulse lasts exactly as long, and leaves an input without pull-up', () => {
    const rig = started();
    const free = [17, 18, 19].find((pin) => !LAMP_PINS.includes(pin)) ?? 19;
    for (const [level, ms] of [
      [1, 1],
      [0, 20],
      [1, 2000],
    ] as const) {
      const seen = watch(rig, free, () => {
        expect(rig.ask('pulse', free, level, ms)).toBe('ok');
        rig.runMs(ms + 10);
      });
      expect(seen.map(([, state]) => state)).toEqual([String(level), 'z']);
      expect(Math.abs((seen[1]?.[0] ?? 0) - ms * 1000)).toBeLessThan(20);
    }
  });

  test('the app dies: a timed lamp ends with the other overrides after five seconds', () => {
    const rig = started();
    const plain = started();
    rig.ask('lamp', 'all', 'off');
    rig.ask('lamp', 3, 'on', 60_000);
    rig.runMs(5100);
    plain.board.runUntil(rig.board.cycles);
    rig.runMs(10_000);
    plain.runMs(10_000);
    expect(rig.lit).toBe(plain.lit);
    const late = (it: Rig) =>
      it.edges.filter(({ cycles }) => cycles > 5600 * CYCLES_PER_MS).map(({ lamp, lit }) => `${lamp} ${lit}`);
    expect(late(rig)).toEqual(late(plain));
    expect(late(plain).length).toBeGreaterThan(0);
  });
});

describe('the reference that a meter has calibrated', () => {
  test('survives resets and power cuts, and the first reading is there at once', () => {
    const rig = started();
    expect(rig.ask('meter', 4800)).toBe('ok 1055');
    rig.board.reset();
    rig.runMs(300);
    expect(rig.ask('supply')).toBe('ok 4801 4801 1055');
    rig.board.power(false);
    rig.board.power(true);
    rig.runMs(300);
    expect(rig.ask('supply')).toBe('ok 4801 4801 1055');
  });

  test('is the old one, the new one or none when the power fails in any write of it', () => {
    const first = started();
    first.ask('meter', 4800);
    const seen = new Set<string>();
    for (let operation = 1; operation <= 10; operation++) {
      for (const torn of [true, false]) {
        const rig = new Rig(penmarrow, first.board.eeprom.memory.slice());
        rig.board.power(true);
        rig.runMs(300);
        rig.board.cutPowerAt({ operation, torn });
        rig.board.write(new TextEncoder().encode(encodeRequest(0x55, 'meter', [5200])));
        rig.runMs(80);
        rig.board.cutPowerAt(null);
        rig.board.power(false);
        rig.board.power(true);
        rig.runMs(300);
        seen.add(rig.ask('supply').split(' ')[3] ?? '');
      }
    }
    expect(['-', '1055', '1143']).toEqual(expect.arrayContaining([...seen]));
    expect(seen).toContain('-');
    expect(seen).toContain('1143');
  });
});
