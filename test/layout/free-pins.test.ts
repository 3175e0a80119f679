/** Which outputs are free, and how the lamps of a new site are laid on them. */
import { describe, expect, it } from 'vitest';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { makePelican, PELICAN_HEADS } from '../../shared/layout/templates/pelican.ts';
import { allotLamps, BOARD_PINS, freeBits, freePins } from '../../shared/layout/templates/pins.ts';
import { makeButton } from '../../shared/layout/templates/road-parts.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { pinName, pinNumber } from '../../shared/signals/pins.ts';
import { CAPACITY } from '../../shared/table/format.ts';
import { chainOf, type Edits, edited, smallLayout } from './small.ts';

/** A junction on D2 to D7, beacons on A0 and A1. */
function small(edits: Edits = {}): Layout {
  const { layout, findings } = readLayout(edited(smallLayout(), edits));
  expect(findings).toEqual([]);
  if (layout === null) throw new Error('no layout');
  return layout;
}

describe('free pins', () => {
  it('are all that nothing uses, without the serial line, the one with the own LED last', () => {
    expect(freePins(small(), 'b1')).toEqual(['D8', 'D9', 'D10', 'D11', 'D12', 'A2', 'A3', 'A4', 'A5', 'D13']);
  });

  it('are none of those of inputs, indicators, sync outputs and the chain', () => {
    const layout = small({
      inputs: [{ id: 'button', name: 'Button', board: 'b1', pin: 'a2', indicator: { pin: 8 } }],
      groups: [{ id: 'g', name: 'Street', board: 'b1', cycle: 60, syncOut: { pin: 'D9' } }],
      'boards.0.chain': { chips: 1, data: 'D10', clock: 'D11', latch: 18, enable: 'D12' },
    });
    expect(freePins(layout, 'b1')).toEqual(['A3', 'A5', 'D13']);
  });

  it('are those of the board that is asked for, and none of one that is not there', () => {
    const layout = small({ 'boards.1': { id: 'b2', name: 'Two', chip: 'atmega2560' }, 'sites.1.board': 'b2' });
    expect(freePins(layout, 'b2')).toHaveLength(66);
    expect(freePins(layout, 'b2').slice(-4)).toEqual(['A13', 'A14', 'A15', 'D13']);
    expect(freePins(layout, 'b1')).toContain('A0');
    expect(freePins(layout, 'b3')).toEqual([]);
  });

  it('are numbered as the image numbers them', () => {
    for (const chip of ['atmega328p', 'atmega2560'] as const) {
      const { analogue, last } = BOARD_PINS[chip];
      expect(last).toBe(CAPACITY[chip].pins);
      expect([pinName(analogue, chip), pinNumber(`D${analogue - 1}`, chip)]).toEqual(['A0', analogue - 1]);
    }
  });
});

describe('lamps of a new site', () => {
  it('are laid head by head on pins side by side', () => {
    expect(allotLamps(small(), 'b1', [3, 2])).toEqual([
      [{ pin: 'D8' }, { pin: 'D9' }, { pin: 'D10' }],
      [{ pin: 'D11' }, { pin: 'D12' }],
    ]);
    // Three do not fit between D11 and D12.
    expect(allotLamps(small(), 'b1', [3, 3])?.[1]).toEqual([{ pin: 'A2' }, { pin: 'A3' }, { pin: 'A4' }]);
  });

  it('are spread where no run is long enough, and not laid at all where there are too few', () => {
    const lamps = allotLamps(small(), 'b1', [6])?.flat();
    expect(lamps?.map(({ pin }) => pin)).toEqual(['D8', 'D9', 'D10', 'D11', 'D12', 'A2']);
    expect(allotLamps(small(), 'b1', [6, 5])).toBeNull();
    expect(allotLamps(small(), 'b3', [1])).toBeNull();
  });

  it('go to the chain where it has room', () => {
    const layout = small({ 'boards.0.chain': chainOf(1), 'sites.1.beacons.0': { id: 'left', bit: 2 } });
    expect(freeBits(layout, 'b1')).toEqual([0, 1, 3, 4, 5, 6, 7]);
    expect(allotLamps(layout, 'b1', [3, 2])).toEqual([
      [{ bit: 3 }, { bit: 4 }, { bit: 5 }],
      [{ bit: 0 }, { bit: 1 }],
    ]);
    expect(freeBits(small(), 'b1')).toEqual([]);
  });

  it('and a button on what is left make a pelican of which nothing is told', () => {
    const layout = small();
    const lamps = allotLamps(layout, 'b1', PELICAN_HEADS) ?? [];
    layout.sites.push(makePelican({ id: 'pelican', name: 'Town Hall', board: 'b1', lamps, buttons: ['button'] }));
    const [pin = '', wait = ''] = freePins(layout, 'b1');
    expect([pin, wait]).toEqual(['A2', 'A3']);
    layout.inputs = [makeButton({ id: 'button', name: 'Button', board: 'b1', pin, wait: { pin: wait } })];
    expect(readLayout(layout).findings).toEqual([]);
    expect(compileLayout(layout).findings).toEqual([]);
    expect(freePins(layout, 'b1')).toEqual(['A4', 'A5', 'D13']);
  });
});
