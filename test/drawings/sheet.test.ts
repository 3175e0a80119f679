import { expect, test } from 'vitest';
import { sheetBoards } from '../../shared/drawings/sheet/boards.ts';
import { wireLabels } from '../../shared/drawings/sheet/labels.ts';
import { SHEET_PARTS, type SheetBoard, type SheetOptions } from '../../shared/drawings/sheet/model.ts';
import { sheetHtml, wiringCsv, wiringSheet } from '../../shared/drawings/sheet/page.ts';
import { postsOf } from '../../shared/drawings/sheet/posts.ts';
import { cssText } from '../../shared/drawings/sheet/styles.ts';
import { checkWords, momentText } from '../../shared/drawings/sheet/words.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { oneOfEach } from '../panel/one-of-each.ts';
import { OPTIONS, sheetTown } from './sheet-town.ts';
import { penmarrow } from './sites.ts';
import { byClass, byName, type Node, parseXml } from './xml.ts';

const town = sheetTown();
const [main, quay] = sheetBoards(town.layout, town.boards, {}) as [SheetBoard, SheetBoard];

function page(options: Partial<SheetOptions> = {}): Node {
  const html = sheetHtml(wiringSheet(town.layout, town.boards, { ...OPTIONS, ...options }));
  expect(html.startsWith('<!doctype html>\n')).toBe(true);
  return parseXml(html.slice('<!doctype html>\n'.length).trim());
}

/** Texts of the cells of the row whose first cell begins so. */
function row(root: Node, output: string): string[] {
  const found = byName(root, 'tr').find(({ children }) => byName(children[0] as Node, 'strong')[0]?.text === output);
  return (found?.children ?? []).map(({ text }) => text);
}

test('is one well-formed page that stands alone: no script, no address, no style attribute', () => {
  const root = page();
  expect(byName(root, 'script')).toEqual([]);
  expect(byName(root, 'title')[0]?.text).toBe('Penmarrow <Parade> & "Quay": wiring sheet');
  const attributes = (node: Node): [string, string][] => [
    ...Object.entries(node.attributes),
    ...node.children.flatMap(attributes),
  ];
  for (const [name, value] of attributes(root)) {
    expect(name).not.toMatch(/^(style|src|href|on.*)$/);
    if (name !== 'xmlns') expect(value).not.toMatch(/^\w+:/);
  }
  expect(byName(root, 'style')[0]?.text).not.toMatch(/url\(|@import/);
});

test('each output has its port bit, heads, lamp, wire, resistor with bands, current and check', () => {
  const root = page();
  // 470 ohms: yellow violet brown (IEC 60062); (5 - 2.8) V / 470 ohms = 4.68 mA.
  expect(row(root, 'D22')).toEqual([
    ...['D22PA0', 'Lamp 1', 'warm-whitewhite wire', '470 Ωyellow violet brown gold'],
    ...['4.7\u00a0mA to GNDcommon cathode', 'right25 Nov 2026, 19:04, Ann & Bob'],
  ]);
  expect(row(root, 'A15').slice(2, 5)).toEqual([
    'warm-whiteturquoise wire',
    '470 Ωyellow violet brown gold',
    '4.7\u00a0mA to +5\u00a0Vcommon anode',
  ]);
  expect(row(root, 'A14')[3]).toBe('fitted in the lamp');
  expect(row(root, 'bit 3').slice(0, 3)).toEqual([
    'bit 3',
    'Three in a row',
    'warm-white, 3 in serieswhite wirepower register',
  ]);
  expect(row(root, 'D3')[2]).toBe('warm-white, 4 side by sidewhite wirebehind a transistor');
});

test('heads that share an output are named, and the current is that of all of them', () => {
  const [, , quays] = byName(page({ board: 'quay' }), 'tr');
  expect(quays?.children[1]?.text).toBe('Vehicles2 heads: From the north; From the south');
  expect(quays?.children[3]?.text).toBe('680 Ω in each headblue grey brown gold');
  // 2 x (5 - 1.9) V / 680 ohms = 9.1 mA.
  expect(quays?.children[4]?.text).toBe('9.1\u00a0mA to GNDcommon cathode');
});

test('a result counts for the output it was found on, no other', () => {
  const words = (output: string) => {
    const load = main.loads.find(({ outputName }) => outputName === output);
    return load && checkWords(main, load);
  };
  expect(words('D22')).toMatchObject({ state: 'right', words: 'right' });
  expect(words('D23')).toMatchObject({ state: 'dark', words: 'stayed dark' });
  expect(words('D24')).toMatchObject({ state: 'again', words: 'check again: it was on D2' });
  expect(words('D25')).toMatchObject({
    words: 'another lamp lit: Lamp 5 warm-white',
    note: 'swapped at the strip',
  });
  expect(words('D26')).toMatchObject({ state: 'none', words: 'not checked', about: '' });
  expect(byClass(page(), 'title')[0]?.text).toContain('1 of 26 lamps right; finished 25 Nov 2026, 19:30, by Ann & Bob');
});

test('a later answer of this computer counts beside those of the file', () => {
  const later = {
    ...{ board: 'town', by: 'Cy', began: '2026-12-01T10:00:00Z' },
    lamps: [
      {
        site: 'parade',
        label: 'Lamp 2',
        colour: 'warm-white',
        output: 'D23',
        result: 'right' as const,
        at: '2026-12-01T10:00:05Z',
      },
    ],
  };
  const root = page({ checks: [later] });
  expect(row(root, 'D23')[5]).toBe('right1 Dec 2026, 10:00, Cy');
  expect(row(root, 'D22')[5]).toMatch(/^right25 Nov 2026/);
});

test('only what is asked for is printed; title and cautions always', () => {
  const bare = page({ parts: [], board: 'quay' });
  expect(byName(bare, 'h1').map(({ text }) => text)).toEqual(['Penmarrow <Parade> & "Quay": wiring sheet']);
  expect(byName(bare, 'li').some(({ text }) => text.startsWith('Extra-low voltage only'))).toBe(true);
  expect([...byName(bare, 'table'), ...byName(bare, 'svg')]).toEqual([]);
  for (const part of SHEET_PARTS) {
    const more = page({ parts: [part], board: 'town' });
    expect(byName(more, 'section').length).toBeGreaterThan(0);
    expect(more.text.length).toBeGreaterThan(bare.text.length);
  }
  expect(byName(page(), 'h1')).toHaveLength(2);
});

test('a board that is not there prints nothing but says so', () => {
  expect(page({ board: 'nowhere' }).text).toContain('There is no board to print');
});

test('every pin stands in the drawing once, with what is wired to it', () => {
  const drawn = (board: string) => byClass(page({ board, parts: ['drawing'] }), 'pin');
  const nano = drawn('quay');
  // 20 pins (firmware/PROTOCOL.md chapter 5), ground and supply.
  expect(nano).toHaveLength(22);
  const name = (pin: Node): string => byClass(pin, 'bold')[0]?.text ?? '';
  expect(new Set(nano.map(name)).size).toBe(22);
  const by = (pins: readonly Node[], wanted: string) => pins.find((pin) => name(pin) === wanted)?.text;
  expect(by(nano, 'A0')).toBe('A0PC0SButton by the chandlerinput, pull-up in the chipGND');
  expect(by(nano, 'A2')).toBe('A2PC2STrain nearinput+5 V');
  expect(by(nano, 'D12')).toBe('D12PB4free');
  expect(by(nano, 'GND')).toMatch(/^GNDcommon wire of \d heads$/);
  const mega = drawn('town');
  // 70 pins, ground and supply, and 16 pins that are wired on each of two chips.
  expect(mega).toHaveLength(72 + 2 * 16);
  expect(by(mega, 'D51')).toBe('D51PB2Chain: datato SER of chip 1');
});

test('the chain: data from chip to chip, a capacitor for each, the pull-up of output enable', () => {
  const chain = byClass(page({ board: 'town', parts: ['drawing'] }), 'chain')[0] as Node;
  expect(chain.text).toContain('Every chip needs a capacitor of 100 nF');
  expect(chain.text).toContain('One resistor of 10 kΩ from output enable to +5 V');
  const [first, second] = byName(chain, 'svg').map((it) => byClass(it, 'pin').map(({ text }) => text));
  // TPIC6B595 (SLIS032B, logic symbol): SER IN 3, DRAIN0 4, SER OUT 18.
  expect(first).toContain('3 SER INdata infrom D51 of the board');
  expect(first).toContain('18 SER OUTdata outto the data in of chip 2');
  expect(first?.find((it) => it.startsWith('4 DRAIN0'))).toContain('+12 V');
  // 74HC595 (MC74HC595A, pin assignment): SER 14, QA 15, QB 1.
  expect(second).toContain('14 SERdata infrom the data out of chip 1');
  expect(second).toContain('15 QAbit 8: free');
  expect(second?.find((it) => it.startsWith('1 QB'))).toContain('bit 9: ');
});

test('each wire has a label for each of its ends', () => {
  const labels = wireLabels(quay);
  const ends = (wire: string) => labels.filter((it) => it.wire === wire).map(({ end }) => end);
  // Shared by two heads: one end at the board, one at each post.
  expect(ends('D2 Quay crossing Vehicles red')).toEqual(['board end']);
  expect(ends('D2 Quay crossing From the north red')).toEqual(['post end']);
  expect(ends('D2 Quay crossing From the south red')).toEqual(['post end']);
  expect(ends('GND Quay crossing West kerb')).toEqual(['board end', 'post end']);
  expect(ends('A0 Button by the chandler')).toEqual(['board end', 'far end']);
  for (const load of main.loads) {
    expect(wireLabels(main).filter(({ wire }) => wire.startsWith(`${load.outputName} `)).length).toBe(2);
  }
});

test('the table for a spreadsheet: the same outputs, quoted as RFC 4180 has it, no formulas', () => {
  const lines = wiringCsv(town.layout, town.boards, {}).split('\r\n');
  expect(lines.at(-1)).toBe('');
  expect(lines[0]).toMatch(/^Board,Output,Port bit,Use,Site,Heads,Lamp,Wire,Resistor ohms,Bands,Current mA,/);
  expect(lines).toContain(
    'Town board,D22,PA0,lamp,Parade,Lamp 1,warm-white,white,470,yellow violet brown gold,4.68,' +
      'none,high,GND,common cathode,right,"25 Nov 2026, 19:04, Ann & Bob",',
  );
  expect(lines).toContain('Quay board,A2,PC2,input,,Train near,,,,,,,,5 V,,,,');
  const count = lines.length - 2;
  // 26 + 9 lamps, 2 inputs, 4 wires of the chain.
  expect(count).toBe(26 + 9 + 2 + 4);
  expect(lines.slice(1).every((line) => !/(^|,)[=+@-]/.test(line))).toBe(true);
  const odd = { ...town.layout, boards: town.layout.boards.map((it) => ({ ...it, name: '=1+1,"x"' })) };
  const evil = wiringCsv(
    odd,
    town.boards.map((it) => ({ ...it, name: '=1+1,"x"' })),
    {},
  );
  expect(evil.split('\r\n')[1]).toMatch(/^"'=1\+1,""x""",D/);
});

test('the example prints without a check', () => {
  const layout = penmarrow();
  const sheet = wiringSheet(layout, compileLayout(layout).boards, OPTIONS);
  expect(sheet.title).toBe('Penmarrow: wiring sheet');
  expect(parseXml(`<div>${sheet.body}</div>`).text).toContain('Lamp checknot done');
});

test('text of the document cannot leave the rules', () => {
  expect(cssText('a"b\\c</style>\n')).toBe('"a\\22 b\\5c c\\3c \\2f style\\3e  "');
  expect(momentText('2026-11-05T09:04:00+01:00')).toBe('5 Nov 2026, 09:04');
});

test('sites of every kind, as they are offered: each lamp in its row, each wire at its pin', () => {
  const layout = oneOfEach();
  const { boards } = compileLayout(layout);
  const root = parseXml(
    `<div>${wiringSheet(layout, boards, { ...OPTIONS, parts: ['table', 'drawing', 'cut'] }).body}</div>`,
  );
  const [board] = sheetBoards(layout, boards, {}) as [SheetBoard];
  expect(board.loads.length).toBeGreaterThan(40);
  for (const { outputName } of board.loads) expect(row(root, outputName)).toHaveLength(6);
  const chains = board.compiled.table.chain ? 3 : 0;
  const wired = byClass(root, 'pin').filter(({ attributes }) => attributes.class?.includes('used')).length;
  // Ground and supply, and what controls two chips, of which the second hands nothing on.
  expect(wired).toBe(board.loads.length + board.compiled.table.inputs.length + chains + 2 + (8 + 7));
  // Vehicles, fires and hand-made programs have no posts.
  const posted = new Set([
    'junction',
    'pelican',
    'crossing',
    'shuttle',
    'zebra',
    'level-crossing',
    'colour-light',
    'street-lamps',
  ]);
  const places = postsOf(board).flatMap((group) => group.places.map((place) => place.split(':')[0]));
  expect(new Set(places)).toEqual(new Set(layout.sites.filter(({ kind }) => posted.has(kind)).map(({ name }) => name)));
});

test('what is wrong with the electrics stands on the sheet', () => {
  const heavy = {
    ...town.layout,
    electrics: { usual: { 'warm-white': { milliamps: 45 } } },
  };
  const { body } = wiringSheet(heavy, compileLayout(heavy).boards, { ...OPTIONS, board: 'town', parts: [] });
  const boxes = byClass(parseXml(`<div>${body}</div>`), 'cautions').map(({ text }) => text);
  expect(boxes[1]).toMatch(/^To be mended in the plan before anything is soldered.*D22/);
  // Nothing is wrong with the example.
  const layout = penmarrow();
  const fine = wiringSheet(layout, compileLayout(layout).boards, OPTIONS).body;
  expect(byClass(parseXml(`<div>${fine}</div>`), 'cautions')).toHaveLength(1);
});
