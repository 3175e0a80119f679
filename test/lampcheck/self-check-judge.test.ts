import { describe, expect, test } from 'vitest';
import { judge } from '../../shared/lampcheck/self-check/judge.ts';
import { whyNotProbed } from '../../shared/lampcheck/self-check/probed.ts';
import type { PinReading } from '../../shared/link/requests.ts';
import { loadAt, TWO_HEADS } from '../electrics/circuit-loads.ts';

const digital = (level: 0 | 1 | null): PinReading => ({ level, rest: null, lit: null });
const analogue = (rest: number, lit: number): PinReading => ({ level: null, rest, lit });
const A0 = 14;
const anode = { activeLow: true };

describe('a digital pin, lit by high', () => {
  const load = loadAt(0, 5);

  test('high means not shorted, never good', () => {
    const verdict = judge(load, digital(1), [load]);
    expect(verdict).toMatchObject({ kind: 'notShorted', mayStayLit: true });
    expect(verdict.what).toBe('D5 is not short. Whether a lamp is there, and its resistor, this pin cannot tell.');
  });

  test('low means that something conducts', () => {
    expect(judge(load, digital(0), [load])).toMatchObject({ kind: 'conducts', mayStayLit: false });
  });

  test('among lamps lit by low a touch between wires would look the same, so nothing is proved', () => {
    const other = loadAt(1, A0, {}, anode);
    expect(judge(load, digital(1), [load, other])).toMatchObject({ kind: 'notShorted', mayStayLit: false });
  });

  test('without a reading it says so', () => {
    expect(judge(load, digital(null), [load]).kind).toBe('cantTell');
  });
});

describe('an analogue pin, lit by high', () => {
  const load = loadAt(0, A0);
  const told = (rest: number, lit: number, it = load) => judge(it, analogue(rest, lit), [it]).kind;

  test('near the supply open, near zero short, between a lamp', () => {
    expect([1023, 990, 930].map((rest) => told(rest, 1023))).toEqual(['open', 'open', 'open']);
    expect([0, 10, 40].map((rest) => told(rest, 0))).toEqual(['short', 'short', 'short']);
    expect([280, 353, 528, 660].map((rest) => told(rest, 988))).toEqual(['lamp', 'lamp', 'lamp', 'lamp']);
  });

  test('between those it does not guess', () => {
    expect([60, 150, 220, 800, 880].map((rest) => told(rest, 988))).toEqual(Array(5).fill('cantTell'));
  });

  test('a deep sag while driven: no resistor', () => {
    expect(told(353, 700)).toBe('noResistor');
    expect(judge(load, analogue(353, 700), [load]).mayStayLit).toBe(false);
  });

  test('with more planned current a missing resistor does not show, and that is said', () => {
    const strong = loadAt(0, A0, { milliamps: 15 });
    expect(judge(strong, analogue(353, 700), [strong]).what).toContain('Whether its resistor is there does not show.');
  });

  test('of several side by side the eye must tell, but nothing is short', () => {
    for (const several of [loadAt(0, A0, {}, TWO_HEADS), loadAt(0, A0, { count: 2 })]) {
      expect(judge(several, analogue(353, 960), [several])).toMatchObject({ kind: 'cantTell', mayStayLit: true });
      expect(told(1020, 1023, several)).toBe('open');
      expect(told(0, 0, several)).toBe('short');
    }
  });

  test('chains of LEDs and filaments', () => {
    const chain = loadAt(0, A0, { count: 2, wired: 'series' });
    expect([1020, 669, 0].map((rest) => told(rest, 1000, chain))).toEqual(['cantTell', 'cantTell', 'short']);
    const filament = loadAt(0, A0, { source: 'filament', forward: 0, resistor: null });
    expect([1020, 0].map((rest) => told(rest, 900, filament))).toEqual(['open', 'cantTell']);
  });
});

describe('an analogue pin, lit by low', () => {
  const load = loadAt(0, A0, {}, anode);
  const told = (rest: number, lit: number) => judge(load, analogue(rest, lit), [load]).kind;

  test('the wire that was let go tells', () => {
    expect(told(0, 0)).toBe('open');
    expect(told(736, 39)).toBe('lamp');
    expect(told(1023, 1010)).toBe('short');
    expect(told(736, 400)).toBe('noResistor');
  });

  test('what fits nothing is not guessed', () => {
    // A wire that floats half way without a current; a high one that hardly conducts; a low one that does.
    expect([told(500, 0), told(1023, 20), told(0, 40)]).toEqual(Array(3).fill('cantTell'));
  });
});

describe('what the chip cannot know', () => {
  test.each([
    ['bits of the chain', loadAt(0, 130), /shift registers/],
    ["the board's own LED", loadAt(0, 13), /own LED/],
    ['a transistor', loadAt(0, A0, { driver: 'transistor' }), /base of its transistor/],
    ['lit by low on a digital pin', loadAt(0, 5, {}, anode), /analogue pins only/],
    ['the serial line', loadAt(0, 1), /line to the computer/],
    ['a wire to another board', loadAt(0, 5, { milliamps: 0 }), /no lamp/],
    ['another voltage', loadAt(0, A0, { volts: 12 }, anode), /4\.5 to 5\.5 V/],
  ])('%s', (_, load, why) => {
    expect(whyNotProbed(load)).toMatch(why);
    expect(judge(load, { level: 1, rest: 400, lit: 980 }, [load])).toMatchObject({
      kind: 'cantTell',
      mayStayLit: false,
    });
  });

  test('beside a power shift register a lamp may be the one of a touching wire', () => {
    const register = loadAt(1, 128, { driver: 'power-register' });
    const load = loadAt(0, A0);
    expect(judge(load, analogue(353, 988), [load, register])).toMatchObject({ kind: 'cantTell', mayStayLit: false });
  });
});
