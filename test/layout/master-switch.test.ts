import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { addMasterSwitch } from '../../shared/layout/new-site/master-switch.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';

function example(): Layout {
  const text = readFileSync(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8');
  const { layout } = parseLayout(text);
  if (!layout) throw new Error('the example is no layout');
  return layout;
}

it('wires a night switch and an all-off switch to free pins, and the board heeds them without a computer', () => {
  const switched = addMasterSwitch(example(), 'town');
  if (!switched) throw new Error('no pins were found');
  const { layout, findings } = parseLayout(writeLayout(switched));
  expect(findings).toEqual([]);
  const compiled = compileLayout(layout ?? example());
  expect(compiled.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const [board] = compiled.boards;
  expect(board?.table).toMatchObject({ nightInput: 0, offInput: 1 });
  expect(board?.table.inputs).toMatchObject([
    { name: 'Night switch', activeLow: true, pullUp: true },
    { name: 'All-off switch', activeLow: true, pullUp: true },
  ]);
  const before = compileLayout(example()).boards[0]?.table;
  expect(board?.table.lamps).toEqual(before?.lamps);
  const pins = board?.table.inputs.map(({ pin }) => pin) ?? [];
  expect(before?.lamps.some(({ output }) => pins.includes(output))).toBe(false);
});

it('adds only what is lacking, and nothing twice', () => {
  const switched = addMasterSwitch(example(), 'town');
  expect(switched && addMasterSwitch(switched, 'town')).toBeNull();
  expect(addMasterSwitch(example(), 'nowhere')).toBeNull();
  const night = { id: 'dusk', name: 'Dusk', board: 'town', pin: 'A0' } as const;
  const own = example();
  const half: Layout = {
    ...own,
    inputs: [night],
    boards: own.boards.map((board) => ({ ...board, switches: { night: 'dusk' } })),
  };
  const both = addMasterSwitch(half, 'town');
  expect(both?.boards[0]?.switches).toEqual({ night: 'dusk', off: 'town-off' });
});

it('says no where no pin is free', () => {
  const full = example();
  const crowded: Layout = {
    ...full,
    inputs: ['A0', 'A1', 'A2', 'A3', 'A4', 'A5', 'D12', 'D13'].map((pin) => ({
      id: `x-${pin}`,
      name: pin,
      board: 'town',
      pin,
    })),
  };
  const free = addMasterSwitch(crowded, 'town');
  expect(free).toBeNull();
});
