/** Limits, pins and ratios against what is printed; each source beside its check. */
import { describe, expect, it } from 'vitest';
import {
  CHIP_TOTAL,
  PB_TOTAL,
  PIN_LIMITS,
  POWER_REGISTER,
  SHIFT_REGISTER,
  USB,
} from '../../shared/electrics/profiles/limits.ts';
import { groupPins, groupsOf, PROFILES } from '../../shared/electrics/profiles/profiles.ts';
import { FORWARD } from '../../shared/electrics/usual.ts';
import { pinRuns } from '../../shared/electrics/words.ts';
import { ratioOf, SCALES } from '../../shared/scale/ratios.ts';
import { CAPACITY } from '../../shared/table/format.ts';

const limits = (chip: 'atmega328p' | 'atmega2560', direction: 'source' | 'sink') =>
  PROFILES[chip].groups
    .filter((group) => group.direction === direction)
    .map((group) => [group.name, group.limit.value, group.limit.confidence]);

describe('ATmega328P (data sheet 8271)', () => {
  it('§29.1: 40 mA a pin, 200 mA through VCC and GND; §29.2: 20 mA, 4.2 V high; 8025: 0.9 V low', () => {
    expect(PIN_LIMITS.absolute.value).toBe(40);
    expect(CHIP_TOTAL.value).toBe(200);
    expect(PIN_LIMITS.specified.value).toBe(20);
    expect(PIN_LIMITS.leastHigh.value).toBe(4.2);
    expect(PIN_LIMITS.greatestLow.value).toBe(0.9);
  });

  it('§29.2 notes 3 and 4: port groups', () => {
    expect(limits('atmega328p', 'source')).toEqual([
      ['C0-5 D0-4', 150, 'seen'],
      ['B0-5 D5-7', 150, 'seen'],
    ]);
    expect(limits('atmega328p', 'sink')).toEqual([
      ['C0-5', 100, 'seen'],
      ['B0-5 D5-7', 100, 'seen'],
      ['D0-4', 100, 'seen'],
    ]);
  });

  it('DS40001906C §33.1: the ATmega328PB carries 100 mA through VCC and GND', () => {
    expect(PB_TOTAL.value).toBe(100);
  });
});

describe('ATmega2560 (data sheet 2549 §31)', () => {
  it('note 3: sums of sinking; note 4: the first three of sourcing quoted, the others from memory', () => {
    const values = [200, 200, 200, 100, 100];
    expect(limits('atmega2560', 'sink').map(([, limit]) => limit)).toEqual(values);
    expect(limits('atmega2560', 'source').map(([, limit]) => limit)).toEqual(values);
    expect(limits('atmega2560', 'source').map(([, , confidence]) => confidence)).toEqual([
      'quoted',
      'quoted',
      'quoted',
      'memory',
      'memory',
    ]);
  });
});

describe('pins', () => {
  it.each(['atmega328p', 'atmega2560'] as const)('%s: every pin is in one group each way, and none twice', (chip) => {
    const { pins } = PROFILES[chip];
    expect(pins).toHaveLength(CAPACITY[chip].pins + 1);
    expect(new Set(pins.map(({ port }) => port)).size).toBe(pins.length);
    for (const { number } of pins) {
      expect(groupsOf(chip, number, 'source')).toHaveLength(1);
      expect(groupsOf(chip, number, 'sink')).toHaveLength(1);
    }
  });

  it('are called as on the board', () => {
    const { pins, groups } = PROFILES.atmega328p;
    expect(pins.filter(({ roles }) => roles.includes('analogue')).map(({ name }) => name)).toEqual([
      'A0',
      'A1',
      'A2',
      'A3',
      'A4',
      'A5',
    ]);
    expect(pins.filter(({ roles }) => roles.includes('serial')).map(({ name }) => name)).toEqual(['D0', 'D1']);
    const [first, second] = groups;
    expect(first && pinRuns(groupPins('atmega328p', first))).toBe('D0 to D4, A0 to A5');
    expect(second && pinRuns(groupPins('atmega328p', second))).toBe('D5 to D13');
  });
});

describe('other parts', () => {
  it('74HC595 (SCHS353): 35 mA an output, 70 mA a chip; Philips 2003: tested at 6 mA', () => {
    expect([SHIFT_REGISTER.output.value, SHIFT_REGISTER.chip.value, SHIFT_REGISTER.specified.value]).toEqual([
      35, 70, 6,
    ]);
  });

  it('TPIC6B595 (SLIS032B): 150 mA continuous, 50 V, 5 ohms', () => {
    expect([POWER_REGISTER.output.value, POWER_REGISTER.volts.value, POWER_REGISTER.ohms.value]).toEqual([150, 50, 5]);
  });

  it('USB 2.0 §7.2.1: five unit loads of 100 mA', () => {
    expect(USB.value).toBe(5 * 100);
  });

  it('Vishay 83030 at 2 mA: red 1.9, yellow 2.4 V; InGaN green and blue 2.6 V at 5 mA', () => {
    expect([FORWARD.red, FORWARD.yellow, FORWARD.amber, FORWARD.green, FORWARD.blue].map(({ value }) => value)).toEqual(
      [1.9, 2.4, 2.4, 2.6, 2.6],
    );
  });
});

// NEM 010, edition 2011, table 1: Z 220, N 160, TT 120, H0 87, S 64, 0 45, I 32.
it.each([
  ['Z', 220],
  ['N', 160],
  ['TT-120', 120],
  ['HO', 87],
  ['S', 64],
  ['O-NEM', 45],
  ['1', 32],
] as const)('NEM 010: %s is 1:%d', (id, ratio) => {
  // HO is 3.5 mm to the foot, which is 1:87.09.
  expect(Math.round(ratioOf(id))).toBe(ratio);
  expect(SCALES.some((scale) => scale.id === id)).toBe(true);
});
