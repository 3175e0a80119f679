/** A small good layout for tests to spoil, one mistake at a time. */

/** Plain JSON values, loosely typed on purpose: tests put wrong things in. */
// biome-ignore lint/suspicious/noExplicitAny: the point of these tests is what the types forbid.
export type Loose = any;

function phase(id: string, first: number): Loose {
  const [red, amber, green] = [first, first + 1, first + 2].map((pin) => ({ pin: `D${pin}` }));
  return { id, name: `${id} Street`, lamps: { red, amber, green } };
}

/** A UK junction of two phases on D2 to D7 and a zebra on A0 and A1; a fresh copy each time. */
export function smallLayout(): Loose {
  return {
    format: 'amberwick-layout',
    version: 1,
    name: 'Small town',
    scale: 'OO',
    practice: 'uk-today',
    boards: [{ id: 'b1', name: 'Board 1', chip: 'atmega328p' }],
    sites: [
      {
        kind: 'junction',
        id: 'cross',
        name: 'The Cross',
        board: 'b1',
        phases: [phase('A', 2), phase('B', 5)],
        heads: [{ id: 'h1', name: 'A Street, north', phase: 'A' }],
        stages: [
          { id: '1', phases: ['A'], green: 18 },
          { id: '2', phases: ['B'], green: 12 },
        ],
        intergreens: { A: { B: 5 }, B: { A: 5 } },
      },
      {
        kind: 'zebra',
        id: 'zebra',
        name: 'The Zebra',
        board: 'b1',
        beacons: [
          { id: 'left', pin: 'A0' },
          { id: 'right', pin: 'A1' },
        ],
      },
    ],
  };
}

/** A site given row by row: one lamp on D9, two dials, two rows. */
export function rowSite(): Loose {
  return {
    kind: 'program',
    id: 'lamp',
    name: 'The Lamp',
    board: 'b1',
    lamps: [{ id: 'white', colour: 'white', pin: 'D9' }],
    dials: [
      { id: 'on', value: 2 },
      { id: 'off', value: 1 },
    ],
    rows: [
      { do: 'after', label: 'lit', dial: 'on', show: { white: 'lit' } },
      { do: 'after', dial: 'off', show: {} },
    ],
  };
}

/** The small layout with a row-by-row site after the other two. */
export function layoutWithRows(): Loose {
  const layout = smallLayout();
  layout.sites.push(rowSite());
  return layout;
}

/** What to write where, by paths such as `sites.0.stages.1.green`; undefined takes the key out. */
export type Edits = Readonly<Record<string, unknown>>;

export function edited(layout: Loose, edits: Edits): Loose {
  for (const [path, value] of Object.entries(edits)) {
    const steps = path.split('.');
    const last = steps.pop() ?? '';
    const place = steps.reduce((at, step) => at[step], layout);
    if (value === undefined) delete place[last];
    else place[last] = structuredClone(value);
  }
  return layout;
}

export function many<T>(count: number, make: (index: number) => T): T[] {
  return Array.from({ length: count }, (_, index) => make(index));
}

export function chainOf(chips: number): Loose {
  return { chips, data: 'D8', clock: 'D11', latch: 'D12' };
}
