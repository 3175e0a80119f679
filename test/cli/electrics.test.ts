/** `amberwick electrics` and `amberwick scale`, as typed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { example, typed } from './typed.ts';

const penmarrow = example('penmarrow');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-electrics-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('electrics', () => {
  it('says what every output carries, what it adds up to, and what to buy', async () => {
    const { exit, out, err } = await typed('electrics', penmarrow);
    expect([exit, err]).toEqual([0, '']);
    expect(out).toContain(
      'D2      Market Cross, Fore Street, red         2      red     680 Ω     blue-grey-brown-gold',
    );
    expect(out).toMatch(/^Chip, through VCC +75.1 mA +57.4 mA +200 mA +ATmega328P data sheet/m);
    expect(out).toMatch(/^16 +Resistor 560 Ω, ¼ W +green, blue, brown, gold$/m);
    expect(out).toContain('Extra-low voltage only');
  });

  it('gives the same as JSON', async () => {
    const { json } = await typed('electrics', penmarrow, '--json');
    const [board] = json().boards;
    expect(board.outputs[0]).toMatchObject({ output: 'D2', resistor: 680, bands: ['blue', 'grey', 'brown', 'gold'] });
    expect(board.sums.map(({ is }: { is: string }) => is)).toEqual(['group', 'group', 'chip', 'supply']);
    expect(board.average).toBe('cycle');
  });

  it('ends with 1 and the way out when a pin carries too much; check says so, too', async () => {
    const layout = JSON.parse(readFileSync(penmarrow, 'utf8'));
    layout.electrics = { usual: { red: { milliamps: 25 } } };
    const file = join(folder, 'bright.json');
    writeFileSync(file, JSON.stringify(layout));
    for (const command of ['electrics', 'check']) {
      const { exit, err } = await typed(command, file);
      expect(exit).toBe(1);
      // Two heads of 3.1 V over 150 ohms.
      expect(err).toContain('Market Cross, Fore Street, red on D2 carries 41.3 mA.');
      expect(err).toContain('transistor');
    }
  });

  it('knows no board of another name', async () => {
    expect((await typed('electrics', penmarrow, '--board', 'village')).exit).toBe(2);
  });
});

describe('scale', () => {
  it.each([
    [['7 ft', '--scale', 'OO'], 'OO, 1:76.2: 2.13 m (7 ft) of the street are 28 mm (1 in) on the model.'],
    [['28mm', '--scale', '1:76.2', '--back'], '1:76.2: 2.13 m (7 ft) of the street are 28 mm (1 in) on the model.'],
    [['30mph', '--scale', 'n'], '30mph in N, 1:160: 84 mm a second. Times stay those of the street.'],
  ])('%j', async (words, said) => {
    const { exit, out } = await typed('scale', ...words);
    expect(exit).toBe(0);
    expect(out).toBe(`${said}\n`);
  });

  it('names the nearest light for something small, and lists sizes without a length', async () => {
    expect((await typed('scale', '8 in', '--scale', 'OO')).out).toContain('3 mm LED, 0.33 mm larger, or 2 mm fibre');
    const { json } = await typed('scale', '--scale', 'HO', '--json');
    const zebra = json().sizes.find(({ id }: { id: string }) => id === 'zebra');
    expect(zebra.sizes[0]).toMatchObject({ id: 'globe', source: expect.stringContaining('SI 1997/2400') });
  });

  it.each([
    ['7', '--scale', 'OO'],
    ['7 ft', '--scale', 'custom'],
    ['7 ft', '--scale', '1:0'],
    ['7 ft', '--scale', 'QQ'],
  ])('%s %s %s is not understood', async (...words) => {
    expect((await typed('scale', ...words)).exit).toBe(2);
  });
});
