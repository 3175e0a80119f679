/** What hangs on the outputs: heads that share them, and what is taken for granted. */
import { describe, expect, it } from 'vitest';
import { isWire, loadsOf } from '../../shared/electrics/loads.ts';
import { FIRST_BIT } from '../../shared/layout/wiring/numbers.ts';
import { CHAIN_BASE } from '../../shared/table/format.ts';
import { compiled, example } from './layouts.ts';

const UP = { id: 'up', name: 'Up', phase: 'A' };
const lamps = { red: { pin: 'D2' }, amber: { pin: 'D3' }, green: { pin: 'D4' } };
const junction = (phases: object[], heads: object[]) => ({
  kind: 'junction',
  id: 'j',
  name: 'Junction',
  board: 'b',
  phases,
  heads,
  stages: [
    { id: '1', phases: ['A'], green: 10 },
    { id: '2', phases: ['B'], green: 10 },
  ],
});
const other = { id: 'B', name: 'Other', lamps: { red: { pin: 'D10' }, amber: { pin: 'D11' }, green: { pin: 'D12' } } };
const headsOf = (sites: object[], rest: object = {}) => {
  const { layout, board } = compiled(sites, rest);
  return Object.fromEntries(loadsOf(layout, board).map((load) => [load.outputName, load.heads.map(({ id }) => id)]));
};

describe('the example', () => {
  const { layout, boards } = example('penmarrow');
  const loads = boards.flatMap((board) => loadsOf(layout, board));

  it('has one load for each lamp of the table, in its order', () => {
    expect(loads.map(({ lamp }) => lamp)).toEqual(boards[0]?.table.lamps.map((_, index) => index));
    expect(loads.map(({ output }) => output)).toEqual(boards[0]?.table.lamps.map(({ output }) => output));
  });

  it('hangs opposing heads on one output, each with a resistor of its own', () => {
    expect(loads[0]).toMatchObject({
      outputName: 'D2',
      siteName: 'Market Cross',
      label: 'Fore Street',
      colour: 'red',
      wire: 'red',
      heads: [{ id: 'fore-street-east' }, { id: 'fore-street-west' }],
      // (5 - 1.9) / 5 mA = 620 ohms, next greater of E12.
      circuit: { driver: 'direct', volts: 5, forward: 1.9, milliamps: 5, resistor: 680, isGiven: false },
    });
    expect(loads.find(({ outputName }) => outputName === 'D11')?.heads).toEqual([
      { id: 'chapel-lane', name: 'Chapel Lane, at its end' },
    ]);
  });
});

describe('shared outputs', () => {
  it('leaves a head out for the lamps that have an output of their own', () => {
    const down = { id: 'down', name: 'Down', phase: 'A', lamps: { green: { pin: 'D5' } } };
    const heads = headsOf([junction([{ id: 'A', name: 'Road', lamps }, other], [UP, down])]);
    expect(heads).toMatchObject({ D2: ['up', 'down'], D3: ['up', 'down'], D4: ['up'], D5: ['down'], D10: ['B'] });
  });

  it('keeps figures off the amber', () => {
    const figure = { id: 'figure', name: 'Figure', phase: 'A', kind: 'pedestrian' };
    const heads = headsOf([junction([{ id: 'A', name: 'Road', lamps }, other], [UP, figure])]);
    expect(heads).toMatchObject({ D2: ['up', 'figure'], D3: ['up'], D4: ['up', 'figure'] });
  });

  it('knows the groups of a crossing and of a level crossing', () => {
    const crossing = {
      kind: 'pelican',
      id: 'p',
      name: 'Pelican',
      board: 'b',
      vehicles: lamps,
      pedestrians: { red: { pin: 'D5' }, green: { pin: 'D6' } },
      heads: [
        { id: 'v1', name: 'V1', kind: 'vehicle' },
        { id: 'v2', name: 'V2', kind: 'vehicle', lamps: { red: { pin: 'D7' } } },
        { id: 'p1', name: 'P1', kind: 'pedestrian' },
      ],
    };
    const level = {
      kind: 'level-crossing',
      id: 'l',
      name: 'Level crossing',
      board: 'b',
      lights: { amber: { pin: 'D8' }, left: { pin: 'D9' }, right: { pin: 'D10' } },
    };
    const found = headsOf([crossing, level]);
    expect(found).toMatchObject({ D2: ['v1'], D3: ['v1', 'v2'], D5: ['p1'], D6: ['p1'], D7: ['v2'] });
    expect(found).toMatchObject({ D8: ['road'], D9: ['road'], D10: ['road'] });
  });

  it('names lamps of lists, ends of a shuttle, signals and indicators by themselves', () => {
    const found = headsOf(
      [
        { kind: 'zebra', id: 'z', name: 'Zebra', board: 'b', beacons: [{ id: 'left', pin: 'D2' }] },
        {
          kind: 'colour-light',
          id: 's',
          name: 'Signal',
          board: 'b',
          aspects: 2,
          lamps: { red: { pin: 'D3' }, green: { pin: 'D4' } },
        },
        {
          kind: 'shuttle',
          id: 'w',
          name: 'Works',
          board: 'b',
          ends: [
            { id: 'e1', name: 'E1', lamps: { red: { pin: 'D5' }, amber: { pin: 'D6' }, green: { pin: 'D7' } } },
            { id: 'e2', name: 'E2', lamps: { red: { pin: 'D8' }, amber: { pin: 'D9' }, green: { pin: 'D10' } } },
          ],
        },
        {
          kind: 'pelican',
          id: 'p',
          name: 'Pelican',
          board: 'b',
          vehicles: { red: { pin: 'A0' }, amber: { pin: 'A1' }, green: { pin: 'A2' } },
          pedestrians: { red: { pin: 'A3' }, green: { pin: 'A4' } },
          buttons: ['button'],
        },
      ],
      { inputs: [{ id: 'button', name: 'Button', board: 'b', pin: 'D11', indicator: { pin: 'D12' } }] },
    );
    expect(found).toMatchObject({
      D2: ['left'],
      D3: ['s'],
      D6: ['e1'],
      D10: ['e2'],
      A0: ['vehicles'],
      D12: ['button'],
    });
  });
});

describe('what a lamp says of itself', () => {
  const circuitOfFirst = (beacon: object, rest: object = {}) => {
    const { layout, board } = compiled(
      [{ kind: 'zebra', id: 'z', name: 'Zebra', board: 'b', beacons: [{ id: 'left', pin: 'D2', ...beacon }] }],
      rest,
    );
    return loadsOf(layout, board)[0];
  };

  it('goes before the usual of the layout, and that before data sheets', () => {
    const electrics = { series: 'E24', usual: { amber: { forward: 2.1, milliamps: 10 } } };
    // (5 - 2.1) / 10 mA = 290 ohms.
    expect(circuitOfFirst({}, { electrics })?.circuit).toMatchObject({ forward: 2.1, milliamps: 10, resistor: 300 });
    const given = { electrics: { milliamps: 20, resistor: 'fitted' } };
    expect(circuitOfFirst(given, { electrics })?.circuit).toMatchObject({
      forward: 2.1,
      milliamps: 20,
      resistor: 'fitted',
      isGiven: true,
    });
  });

  it('has no resistor where the supply is too low for the chain', () => {
    const inRow = { electrics: { count: 2, wired: 'series' } };
    // 5 - 2 * 2.4 = 0.2 V is too little to set a current with.
    expect(circuitOfFirst(inRow)?.circuit.resistor).toBeNull();
    expect(circuitOfFirst({ electrics: { count: 2 } })?.circuit.resistor).toBe(560);
  });

  it('takes a filament for one, unless it has a forward voltage', () => {
    expect(circuitOfFirst({ source: 'smallFilament' })?.circuit).toMatchObject({ source: 'filament', resistor: null });
    expect(circuitOfFirst({ source: 'smallFilament', electrics: { forward: 2 } })?.circuit.source).toBe('led');
  });

  it('wires by the colour of the lamp, or as it says', () => {
    expect(circuitOfFirst({})?.wire).toBe('yellow');
    expect(circuitOfFirst({ wire: 'violet' })?.wire).toBe('violet');
  });
});

describe('sync outputs', () => {
  it('are wires unless something is said to hang on them', () => {
    const group = { id: 'g', name: 'Group', board: 'b', cycle: 60, syncOut: { pin: 'A5' } };
    const site = junction([{ id: 'A', name: 'Road', lamps }, other], []);
    const { layout, board } = compiled([{ ...site, group: 'g' }], { groups: [group] });
    const sync = loadsOf(layout, board).find(({ outputName }) => outputName === 'A5');
    expect(sync && isWire(sync)).toBe(true);
    expect(sync).toMatchObject({ site: null, heads: [{ id: 'g', name: 'Group' }] });
  });
});

it('counts bits of the chain as the board image does', () => {
  expect(FIRST_BIT).toBe(CHAIN_BASE);
});
