/** What a person is told about currents: each limit, its source, the way out. */
import { describe, expect, it } from 'vitest';
import { checkElectrics } from '../../shared/electrics/check/check.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { compiled, example } from './layouts.ts';

const PINS = ['D2', 'D3', 'D4', 'D5', 'D6', 'D7', 'D8', 'D9', 'D10', 'D11', 'D12', 'A0', 'A1', 'A2', 'A3', 'A4', 'A5'];

/** Street lamps that all burn together, each as given. */
function lamps(each: readonly object[], board: object = {}, rest: object = {}): Finding[] {
  const list = each.map((lamp, index) => ({ id: `l${index}`, colour: 'red', ...lamp }));
  const made = compiled(
    [{ kind: 'street-lamps', id: 's', name: 'Street', board: 'b', lamps: list, strikes: 0 }],
    rest,
    board,
  );
  return checkElectrics(made.layout, [made.board]);
}

const codes = (findings: readonly Finding[]): string[] => findings.map(({ severity, code }) => `${severity} ${code}`);
const of = (count: number, electrics: object): object[] =>
  PINS.slice(0, count).map((pin) => ({ pin, electrics: { forward: 2, resistor: 150, ...electrics } }));
const CHAIN = { chain: { chips: 1, data: 'D8', clock: 'D9', latch: 'D10' } };

it('has nothing to say about the shipped examples', () => {
  for (const name of ['penmarrow', 'elm-and-third'] as const) {
    const { layout, boards } = example(name);
    expect(checkElectrics(layout, boards)).toEqual([]);
  }
});

describe('a pin', () => {
  it('is fine up to 20 mA, doubtful above, and broken above 40 (8271 §29.1, §29.2)', () => {
    // 3 V over 150, 149, 75 and 74 ohms: 20, 20.13, 40 and 40.5 mA.
    expect(codes(lamps(of(1, { resistor: 150, milliamps: 20 })))).toEqual([]);
    expect(codes(lamps(of(1, { resistor: 149, milliamps: 20 })))).toEqual(['warning pin-comfort']);
    expect(codes(lamps(of(1, { resistor: 75, milliamps: 40 })))).toEqual(['warning pin-comfort']);
    expect(codes(lamps(of(1, { resistor: 74, milliamps: 40 })))).toEqual(['error pin-current']);
  });

  it('says where, how much, against which limit from where, and what to do', () => {
    const [finding] = lamps(of(1, { resistor: 50, milliamps: 60 }));
    expect(finding?.path).toBe('sites[0].lamps[0]');
    expect(finding?.what).toBe('Street, l0, red on D2 carries 60 mA.');
    expect(finding?.why).toContain('40 mA is the limit (ATmega328P data sheet (8271) §29.1');
    expect(finding?.cure).toContain('transistor');
  });

  it('feeds no filament lamp', () => {
    const findings = lamps([{ pin: 'D2', source: 'smallFilament' }]);
    expect(codes(findings)).toEqual(['error pin-current']);
    expect(findings[0]?.cure).toContain('if it is an LED that glows like one, give its forward voltage');
    expect(codes(lamps([{ pin: 'D2', source: 'smallFilament', electrics: { forward: 2 } }]))).toEqual([]);
  });
});

describe('sums', () => {
  it('holds port groups to 150 mA sourcing and 100 mA sinking (8271 §29.2 notes 3 and 4)', () => {
    // D5 to D10: six pins of one group, 20 mA each.
    const six = PINS.slice(3, 9).map((pin) => ({ pin, electrics: { forward: 2, resistor: 150, milliamps: 20 } }));
    expect(codes(lamps(six))).toEqual(['note chip-sibling']);
    const low = six.map((lamp) => ({ ...lamp, activeLow: true }));
    const findings = lamps(low);
    expect(codes(findings)).toEqual(['error port-group-current', 'note chip-sibling']);
    expect(findings[0]?.what).toContain('The port group D5 to D13, sinking carries 120 mA while D5, D6');
    expect(findings[0]?.path).toBe('boards[0]');
  });

  it('holds the chip to 200 mA, its own current included', () => {
    expect(codes(lamps(of(9, { milliamps: 20 })))).toEqual(['note chip-sibling']);
    expect(codes(lamps(of(10, { milliamps: 20 })))).toEqual(['error chip-current']);
  });

  it('holds a chip of the chain to 70 mA (SCHS353)', () => {
    const bits = (count: number) =>
      Array.from({ length: count }, (_, bit) => ({ bit, electrics: { forward: 2, resistor: 300, milliamps: 10 } }));
    expect(codes(lamps(bits(7), CHAIN))).toEqual([]);
    const findings = lamps(bits(8), CHAIN);
    expect(codes(findings)).toEqual(['error register-current']);
    expect(findings[0]).toMatchObject({ path: 'boards[0].chain' });
  });

  it('holds USB to 500 mA, and a supply to what is said of it', () => {
    const strong = PINS.slice(0, 5).map((pin) => ({
      pin,
      electrics: { driver: 'transistor', forward: 2, resistor: 30, milliamps: 100 },
    }));
    expect(codes(lamps(strong))).toEqual(['warning supply-current']);
    expect(codes(lamps(strong, { power: { from: 'external', milliamps: 1000 } }))).toEqual([]);
    expect(codes(lamps(strong, { power: { from: 'external', milliamps: 400 } }))).toEqual(['warning supply-current']);
    expect(codes(lamps(strong, { power: { from: 'external' } }))).toEqual([]);
  });

  it('counts what is lit together, not what is there', () => {
    // Two junctions' worth of reds and greens: never all of them at once.
    const beacon = (id: string, pin: string, side: string) => ({
      id,
      pin,
      side,
      electrics: { forward: 2, resistor: 75, milliamps: 40, driver: 'direct' },
    });
    const site = {
      kind: 'zebra',
      id: 'z',
      name: 'Zebra',
      board: 'b',
      flash: 'alternate',
      beacons: [
        beacon('a', 'D5', 'left'),
        beacon('b', 'D6', 'right'),
        beacon('c', 'D7', 'left'),
        beacon('d', 'D8', 'right'),
      ],
    };
    const made = compiled([site]);
    // 160 mA together would be too much for the group; 80 at a time are not.
    expect(codes(checkElectrics(made.layout, [made.board])).filter((code) => !code.includes('comfort'))).toEqual([]);
  });
});

describe('resistors and drivers', () => {
  it('says when no resistor can help', () => {
    expect(codes(lamps([{ pin: 'D2', electrics: { count: 3, wired: 'series' } }]))).toEqual(['error no-resistor-fits']);
    expect(codes(lamps([{ pin: 'D2', electrics: { count: 3, wired: 'series', resistor: 100 } }]))).toEqual([
      'error no-resistor-fits',
    ]);
  });

  it('says when a resistor that is there lets too much through, or grows hot', () => {
    expect(codes(lamps([{ pin: 'D2', electrics: { resistor: 220 } }]))).toEqual(['warning resistor-small']);
    const hot = { driver: 'transistor', volts: 24, forward: 2, milliamps: 60 };
    expect(codes(lamps([{ pin: 'D2', electrics: hot }]))).toEqual(['warning resistor-hot']);
  });

  it('keeps other voltages off pins', () => {
    expect(codes(lamps([{ pin: 'D2', electrics: { volts: 12 } }]))).toEqual(['error direct-volts']);
    expect(codes(lamps([{ pin: 'D2', electrics: { volts: 3.3 } }]))).toEqual(['warning direct-volts']);
    expect(codes(lamps([{ pin: 'D2', activeLow: true, electrics: { volts: 3.3 } }]))).toEqual([]);
    expect(codes(lamps([{ pin: 'D2', electrics: { volts: 12, driver: 'transistor' } }]))).toEqual([]);
  });

  it('knows what a power register is', () => {
    const power = { driver: 'power-register', volts: 12, milliamps: 20 };
    expect(codes(lamps([{ pin: 'D2', electrics: power }]))).toEqual(['error power-register-pin']);
    expect(codes(lamps([{ bit: 0, electrics: power }], CHAIN))).toEqual([]);
    expect(codes(lamps([{ bit: 0, activeLow: true, electrics: power }], CHAIN))).toEqual(['error driver-level']);
    expect(codes(lamps([{ bit: 0, electrics: power }, { bit: 3 }], CHAIN))).toEqual(['error mixed-register']);
    const strong = { ...power, resistor: 50, milliamps: 200 };
    expect(codes(lamps([{ bit: 0, electrics: strong }], CHAIN))).toContain('error driver-current');
  });
});

it('makes no error of a limit from memory', () => {
  // E0, E1, E3 to E5, G5 of an ATmega2560 source 100 mA from memory: D2, D3, D4, D5 among them.
  const each = ['D2', 'D3', 'D4', 'D5'].map((pin) => ({
    pin,
    electrics: { forward: 2, resistor: 100, milliamps: 30 },
  }));
  const findings = lamps(each, { chip: 'atmega2560' });
  expect(codes(findings).filter((code) => code.includes('group'))).toEqual(['note port-group-current']);
});
