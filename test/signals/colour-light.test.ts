/** Railway colour-light signals: what they show, by detectors, by one detector, by time and on a common cycle. */
import { describe, expect, it } from 'vitest';
import type { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { ColourLight } from '../../shared/layout/kinds/colour-light.ts';
import { type ColourLightWish, makeColourLight, makeSignalLine } from '../../shared/layout/templates/colour-light.ts';
import { UK_TODAY } from '../../shared/practice/uk.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { boardOf, lampFilm, layoutOf, told } from './lamp-film.ts';

const PINS = ['D2', 'D3', 'D4', 'D5'];
const THREE = ['near', 'middle', 'far'];

function signal(wish: Partial<ColourLightWish>, values: Partial<ColourLight> = {}): ColourLight {
  const pins = PINS.slice(0, wish.aspects ?? 3);
  return { ...makeColourLight({ id: 's', name: 'Quay signal', board: 'b', pins, ...wish }), ...values };
}

const level = (at: number, input: number, active: boolean) =>
  [at, (board: Interpreter) => board.setRaw(input, active)] as const;

describe('what the aspects mean (Network Rail glossary, four-aspect signal)', () => {
  const board = boardOf([signal({ aspects: 4, sections: THREE })], { inputs: THREE });

  it('has its lamps from the top yellow, green, yellow, red', () => {
    expect(board.table.lamps.map((lamp) => lamp.output)).toEqual([2, 3, 4, 5]);
    expect(board.sites[0]?.lamps.map((lamp) => `${lamp.label} ${lamp.colour}`)).toEqual([
      'upper yellow',
      'signal green',
      'lower yellow',
      'signal red',
    ]);
  });

  // The aspect for each of the eight ways in which three sections can be occupied.
  const MEANS: readonly (readonly [occupied: string, lit: string])[] = [
    ['', '.G..'],
    ['far', 'Y.Y.'],
    ['middle', '..Y.'],
    ['middle far', '..Y.'],
    ['near', '...R'],
    ['near far', '...R'],
    ['near middle', '...R'],
    ['near middle far', '...R'],
  ];
  it.each(MEANS)('occupied: "%s" shows %s', (occupied, lit) => {
    const acts = THREE.map((id, input) => level(0, input, occupied.split(' ').includes(id)));
    expect(lampFilm(board, 10_000, acts).at(-1)?.split(' ')[1]).toBe(lit);
  });

  it('goes green, double yellow, yellow, red and clears in the order back', () => {
    // A train comes nearer from afar: backwards over the sections, then goes away over them.
    const acts = [
      level(5000, 2, true),
      level(6000, 1, true),
      level(7000, 0, true),
      level(8000, 0, false),
      level(12_000, 1, false),
      level(13_000, 2, false),
    ];
    expect(lampFilm(board, 20_000, acts)).toEqual([
      '1 ...R',
      // Red at power-on for the overlap of 2 s, until it is known that no section is occupied.
      '2001 .G..',
      '5020 Y.Y.',
      '6020 ..Y.',
      '7020 ...R',
      // 20 ms of debounce and the overlap.
      '10020 ..Y.',
      '12020 Y.Y.',
      '13020 .G..',
    ]);
  });
});

describe('signals of two and three aspects', () => {
  it('a line of signals shares its detectors: each looks at the sections ahead of it', () => {
    const line = makeSignalLine(
      [
        { id: 'a', name: 'First', board: 'b', aspects: 4, pins: ['D2', 'D3', 'D4', 'D5'] },
        { id: 'b', name: 'Second', board: 'b', aspects: 3, pins: ['D6', 'D7', 'D8'] },
        { id: 'c', name: 'Third', board: 'b', aspects: 2, pins: ['D9', 'D10'] },
      ],
      THREE,
    );
    expect(line.map((it) => it.sections)).toEqual([THREE, ['middle', 'far'], ['far']]);
    const board = boardOf(line, { inputs: THREE });
    // A train runs over the three sections, 4 s in each, with its ends in two of them for a second.
    const acts = [
      level(5000, 0, true),
      level(9000, 1, true),
      level(10_000, 0, false),
      level(13_000, 2, true),
      level(14_000, 1, false),
      level(18_000, 2, false),
    ];
    expect(lampFilm(board, 25_000, acts)).toEqual([
      '1 ...R ..R .R',
      '2001 .G.. G.. G.',
      '5020 ...R G.. G.',
      '9020 ...R ..R G.',
      '12020 ..Y. ..R G.',
      '13020 ..Y. ..R .R',
      // The middle section is clear; the first signal sees the train in the far one at once, the second after its overlap.
      '14020 Y.Y. ..R .R',
      '16020 Y.Y. .Y. .R',
      '18020 .G.. G.. .R',
      '20020 .G.. G.. G.',
    ]);
  });

  it('two signals of the same shape share one program', () => {
    const board = boardOf(
      [
        signal({ sections: ['near', 'middle'] }),
        signal({ id: 't', pins: ['D6', 'D7', 'D8'], sections: ['middle', 'far'] }),
      ],
      { inputs: THREE },
    );
    expect(board.table.programs).toHaveLength(1);
    const { bytes } = encodeTable(board.table);
    expect(bytes?.length).toBeLessThan(140);
  });

  it('ten signals of three aspects on twelve detectors fit the small chip', () => {
    const detectors = Array.from({ length: 12 }, (_, index) => `d${index}`);
    const layout = layoutOf(
      makeSignalLine(
        Array.from({ length: 10 }, (_, index) => ({
          id: `s${index}`,
          name: `Signal ${index}`,
          board: 'b',
          pins: [0, 1, 2].map((lamp) => ({ bit: 3 * index + lamp })),
        })),
        detectors,
      ),
    );
    const chain = { chips: 4, data: 'D2', clock: 'D3', latch: 'D4' };
    const inputs = detectors.map((id, index) => ({ id, name: id, board: 'b', pin: 5 + index }));
    const boards = layout.boards.map((board) => ({ ...board, chain }));
    const [board] = compileLayout({ ...layout, boards, inputs }).boards;
    const { bytes, free } = encodeTable(board?.table ?? boardOf([]).table);
    expect(board?.sites).toHaveLength(10);
    expect(bytes).not.toBeNull();
    expect(free).toBeGreaterThan(150);
  });
});

describe('with one detector at the signal', () => {
  const board = boardOf([signal({ passing: 'here' }, { section: 3 })], { inputs: ['here'] });

  it('is red while the train passes and clears step by step behind it', () => {
    expect(lampFilm(board, 20_000, [level(7000, 0, true), level(9000, 0, false)])).toEqual([
      '1 ..R',
      '3001 .Y.',
      '6001 G..',
      '7020 ..R',
      '12020 .Y.',
      '15020 G..',
    ]);
  });

  it('a second train brings red back from yellow at once', () => {
    const acts = [level(7000, 0, true), level(8000, 0, false), level(12_000, 0, true), level(12_500, 0, false)];
    expect(lampFilm(board, 20_000, acts).slice(3)).toEqual([
      '7020 ..R',
      '11020 .Y.',
      '12020 ..R',
      '15520 .Y.',
      '18520 G..',
    ]);
  });
});

describe('by time', () => {
  it('a train passes by itself after a time of chance, and the signal clears step by step', () => {
    const board = boardOf([signal({ aspects: 4 }, { section: 5, trains: { shortest: 20, longest: 40 } })]);
    const lines = lampFilm(board, 600_000).map((line) => line.split(' '));
    const shown = lines.map(([, lit]) => lit);
    expect(shown.slice(0, 5)).toEqual(['.G..', '...R', '..Y.', 'Y.Y.', '.G..']);
    const at = lines.map(([ms]) => Number(ms));
    const greens = shown.flatMap((lit, index) => {
      const next = at[index + 1];
      return lit === '.G..' && next !== undefined ? [next - (at[index] ?? 0)] : [];
    });
    expect(greens.length).toBeGreaterThan(10);
    // The first interval began with the start, a tick before it was seen.
    expect(Math.min(...greens)).toBeGreaterThanOrEqual(19_999);
    expect(Math.max(...greens)).toBeLessThanOrEqual(40_000);
    expect(new Set(greens).size).toBeGreaterThan(5);
    const others = shown.flatMap((lit, index) => {
      const next = at[index + 1];
      return lit !== '.G..' && next !== undefined ? [next - (at[index] ?? 0)] : [];
    });
    expect(new Set(others)).toEqual(new Set([5000]));
  });

  it('on a common cycle each signal of a line sees the train of the cycle, one after the other', () => {
    const board = boardOf(
      [
        signal({}, { group: 'line', offset: 10, section: 6 }),
        signal({ id: 't', pins: ['D6', 'D7', 'D8'] }, { group: 'line', offset: 16, section: 6 }),
      ],
      { cycle: 60 },
    );
    expect(lampFilm(board, 75_000)).toEqual([
      '1 G.. G..',
      '10001 ..R G..',
      '16001 .Y. ..R',
      '22001 G.. .Y.',
      '28001 G.. G..',
      '70001 ..R G..',
    ]);
  });
});

describe('what is wrong is said', () => {
  it('a number of aspects that no signal has', () => {
    expect(() => layoutOf([{ ...signal({}), aspects: 5 as 4 }])).toThrow('2 or 3 or 4');
  });

  it('nothing, where nothing is', () => {
    expect(told([signal({ aspects: 4, sections: THREE })], { inputs: THREE })).toEqual([]);
    expect(told([signal({ aspects: 2 })])).toEqual([]);
  });

  it('a detector that the layout does not have', () => {
    expect(told([signal({ sections: ['near', 'nowhere'] })], { inputs: ['near'] })).toEqual([
      'error unknown-input sites[0].sections[1]',
    ]);
  });

  it('an aspect that can never be shown', () => {
    expect(told([signal({ aspects: 4, sections: ['near', 'middle'] })], { inputs: THREE })).toEqual([
      'warning aspect-never-shown sites[0].sections',
    ]);
    expect(told([signal({ aspects: 4, sections: ['near', 'near', 'far'] })], { inputs: THREE })).toEqual([
      'warning aspect-never-shown sites[0].sections[1]',
    ]);
  });

  it('lamps that are missing, and lamps that are not used', () => {
    expect(told([signal({ aspects: 4, pins: ['D2', 'D3', 'D4'] })])).toEqual([
      'warning missing-lamp sites[0].lamps.red',
    ]);
    expect(told([signal({}, { lamps: {} })])).toEqual(['error no-lamps sites[0].lamps']);
    const lamps = { red: { pin: 'D2' }, green: { pin: 'D3' }, yellow: { pin: 'D4' } };
    expect(told([signal({ aspects: 2 }, { lamps })])).toEqual(['warning not-used sites[0].lamps.yellow']);
  });

  it('no detectors at all in a list of them', () => {
    expect(told([signal({ sections: [] })])).toEqual(['warning no-detectors sites[0].sections']);
  });

  it('more detectors than the aspects tell of, and times that nothing uses', () => {
    const rest = { passing: 'far', section: 5, trains: { longest: 40 }, group: 'line' };
    const site = signal({ aspects: 2 }, { sections: ['near', 'middle'], ...rest });
    expect(told([site], { inputs: THREE, cycle: 60 })).toEqual([
      'warning not-used sites[0].sections[1]',
      'warning not-used sites[0].passing',
      'warning not-used sites[0].section',
      'warning not-used sites[0].trains',
      'warning not-used sites[0].group',
    ]);
    expect(told([signal({}, { overlap: 3 })])).toEqual(['warning not-used sites[0].overlap']);
  });

  it('a double yellow where the practice has none', () => {
    expect(told([signal({ aspects: 4 })], { practice: 'usa-today' })).toEqual([
      'warning not-in-practice sites[0].aspects',
    ]);
    expect(told([signal({ aspects: 3 })], { practice: 'usa-today' })).toEqual([]);
  });

  it('a cycle that is over before the signal has cleared, and a train that comes after it', () => {
    const site = signal({ aspects: 4 }, { group: 'line', section: 20, offset: 70 });
    expect(told([site], { cycle: 60 })).toEqual([
      'error cycle-too-short sites[0].group',
      'error offset-beyond-cycle sites[0].offset',
    ]);
  });

  it('times of chance the wrong way round, and times that the board would refuse', () => {
    expect(told([signal({}, { trains: { shortest: 60, longest: 30 } })])).toEqual([
      'warning between-swapped sites[0].trains',
    ]);
    const [, greatest] = UK_TODAY.railway.section.dial.value;
    expect(told([signal({}, { section: greatest / 1000 + 1 })])).toEqual([
      'error time-outside-limits sites[0].section',
    ]);
  });
});
