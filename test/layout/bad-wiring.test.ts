/** Each kind of mistake in boards, pins, inputs and groups gives exactly one finding, at its place. */
import { describe, expect, it } from 'vitest';
import { chainOf, edited, many, rowSite, smallLayout } from './small.ts';
import { expectOneFinding, findingsOf, type Mistake } from './told.ts';

const PIN = 'sites.1.beacons.0.pin';
const LEFT = 'sites.1.beacons.0';
const CHAIN = 'boards.0.chain';
const input = { id: 'button', name: 'Button', board: 'b1', pin: 'D8' };
const group = { id: 'g', name: 'Street', board: 'b1', cycle: 40 };

const OUTPUTS: readonly Mistake[] = [
  ['unknown pin', { [PIN]: 'D14' }, 'error unknown-pin sites[1].beacons[0].pin'],
  ['unknown pin number', { [PIN]: 20 }, 'error unknown-pin sites[1].beacons[0].pin'],
  ['pin of a larger board', { [PIN]: 'A6' }, 'error unknown-pin sites[1].beacons[0].pin'],
  ['a word for a pin', { [PIN]: 'constructor' }, 'error unknown-pin sites[1].beacons[0].pin'],
  ['true for a pin', { [PIN]: true }, 'error wrong-value sites[1].beacons[0].pin'],
  ['used twice', { 'sites.0.phases.1.lamps.red.pin': 'D2' }, 'error pin-twice sites[0].phases[1].lamps.red.pin'],
  ['used twice, two names', { [PIN]: 15 }, 'error pin-twice sites[1].beacons[1].pin'],
  ['serial pin', { [PIN]: 'D1' }, 'error serial-pin sites[1].beacons[0].pin'],
  ["the board's own LED", { [PIN]: 'D13' }, 'warning own-led-pin sites[1].beacons[0].pin'],
  ['no output', { [PIN]: undefined }, 'error no-output sites[1].beacons[0]'],
  ['two outputs', { [`${LEFT}.bit`]: 0 }, 'error two-outputs sites[1].beacons[0]'],
  ['bit without a chain', { [LEFT]: { id: 'left', bit: 3 } }, 'error no-chain sites[1].beacons[0].bit'],
  [
    'bit beyond the chain',
    { [LEFT]: { id: 'left', bit: 8 }, [CHAIN]: chainOf(1) },
    'error unknown-bit sites[1].beacons[0].bit',
  ],
  ['chain on a lamp', { [CHAIN]: { ...chainOf(1), data: 'D2' } }, 'error pin-twice sites[0].phases[0].lamps.red.pin'],
  ['too many chips', { [CHAIN]: chainOf(9) }, 'error too-many-chips boards[0]'],
  ['brightness', { [`${LEFT}.brightness`]: 120 }, 'error bad-percent sites[1].beacons[0].brightness'],
];

const BOARDS: readonly Mistake[] = [
  ['no boards', { boards: [] }, 'error no-boards boards'],
  ['missing board', { 'sites.0.board': undefined }, 'error missing sites[0].board'],
  ['unknown board', { 'sites.1.board': 'b2' }, 'error unknown-board sites[1].board'],
  [
    'board without sites',
    { 'boards.1': { id: 'b2', name: 'Two', chip: 'atmega2560' } },
    'warning idle-board boards[1]',
  ],
  ['unknown chip', { 'boards.0.chip': 'atmega8' }, 'error wrong-value boards[0].chip'],
  ['duplicate board', { 'boards.1': { id: 'b1', name: 'Two', chip: 'atmega2560' } }, 'error duplicate-id boards[1].id'],
  ['duplicate site', { 'sites.1.id': 'cross' }, 'error duplicate-id sites[1].id'],
  ['sweep too long', { 'boards.0.sweep': 3 }, 'error sweep-too-long boards[0].sweep'],
  ['input on a serial pin', { inputs: [{ ...input, pin: 'D0' }] }, 'error serial-pin inputs[0].pin'],
  ['input on a lamp', { inputs: [{ ...input, pin: 'D2' }] }, 'error pin-twice inputs[0].pin'],
  ['input that waits too long', { inputs: [{ ...input, debounce: 1 }] }, 'error debounce-too-long inputs[0].debounce'],
  [
    'switch without its input',
    { 'boards.0.switches': { night: 'dusk' } },
    'error unknown-input boards[0].switches.night',
  ],
];

const GROUPS: readonly Mistake[] = [
  ['unknown group', { 'sites.0.group': 'g' }, 'error unknown-group sites[0].group'],
  ['offset without a group', { 'sites.0.offset': 5 }, 'warning not-used sites[0].offset'],
  ['crossing in a group', { 'sites.1.group': 'g', groups: [group] }, 'warning not-used sites[1].group'],
  [
    'cycle too short',
    { 'sites.0.group': 'g', groups: [{ ...group, cycle: 39 }] },
    'error cycle-too-short sites[0].group',
  ],
  ['time to spare', { 'sites.0.group': 'g', groups: [{ ...group, cycle: 50 }] }, 'note cycle-slack sites[0].group'],
  ['cycle outside its limits', { groups: [{ ...group, least: 41 }] }, 'error time-outside-limits groups[0].cycle'],
];

describe('one finding for outputs:', () => {
  it.each(OUTPUTS)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

describe('one finding for boards and inputs:', () => {
  it.each(BOARDS)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

describe('one finding for groups:', () => {
  it.each(GROUPS)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

describe('one finding for boards that are too small:', () => {
  const lampOn = (bit: number) => [{ id: 'white', colour: 'white', bit }];

  it('too many lamps', () => {
    const sites = many(3, (site) => ({
      ...rowSite(),
      id: `s${site}`,
      lamps: many(22, (index) => ({ id: `l${index}`, colour: 'red', bit: site * 22 + index })),
      rows: [{ do: 'after', dial: 'on', show: {} }],
    }));
    // 66 lamps need nine chips, which are one too many as well.
    const lamps = edited(smallLayout(), { [CHAIN]: chainOf(9), sites });
    expect(findingsOf(JSON.stringify(lamps)).map((it) => it.code)).toEqual(['too-many-lamps', 'too-many-chips']);
    const fewer = edited(lamps, { 'sites.2.lamps': sites[2]?.lamps.slice(0, 20), [CHAIN]: chainOf(8) });
    expect(findingsOf(JSON.stringify(fewer)).map((it) => it.code)).toEqual([]);
  });

  it('too many sites', () => {
    const sites = many(17, (index) => ({ ...rowSite(), id: `s${index}`, lamps: lampOn(index) }));
    expectOneFinding(smallLayout(), { [CHAIN]: chainOf(3), sites }, 'error too-many-sites boards[0]');
  });

  it('too many inputs', () => {
    // Twenty pins cannot be wired to seventeen inputs and a chain, so the larger chip is asked.
    const inputs = many(33, (index) => ({ ...input, id: `i${index}`, pin: 20 + index }));
    expectOneFinding(
      smallLayout(),
      { 'boards.0.chip': 'atmega2560', inputs, 'sites.1.beacons.0.pin': 54, 'sites.1.beacons.1.pin': 55 },
      'error too-many-inputs boards[0]',
    );
  });

  it('an image that is too large', () => {
    const sites = many(12, (index) => ({
      ...rowSite(),
      id: `s${index}`,
      lamps: lampOn(index),
      // Different limits, so that no two sites share a program.
      dials: [
        { id: 'on', value: 2, greatest: 3 + index },
        { id: 'off', value: 1 },
      ],
      rows: many(12, () => ({ do: 'after', dial: 'on', show: { white: 'lit' } })),
    }));
    const findings = findingsOf(JSON.stringify(edited(smallLayout(), { [CHAIN]: chainOf(3), sites })));
    expect(findings).toMatchObject([{ severity: 'error', code: 'tooLong' }]);
  });
});
