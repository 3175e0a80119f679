/**
 * The lamp drawing for eyes of every kind, on rendered pixels: lit and dark are told apart by lightness, red, amber and
 * green by place and letter. At least 3:1, which WCAG 2.1 asks of graphics (1.4.11) and of large letters (1.4.3).
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Pixels, readPng } from '../../scripts/screens/png.ts';
import { type Bench, inTheme, openBench, type PageWindow, settled, type Theme } from './bench.ts';
import { contrast, EYES, type Eyes, type Light, lightOf, luminance, seenBy } from './colour.ts';

const LEAST = 3;

interface Place {
  readonly lamp: string;
  readonly colour: string;
  readonly letter: string;
  readonly head: string;
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

/** What a bulb shows: its ground, and the colour of its letter. */
interface Bulb extends Place {
  readonly ground: Light;
  readonly ink: Light;
}

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = bench.page;
}, 300_000);
afterAll(() => bench.close());

/** The board stands still with all lamps lit, or all dark. */
async function freeze(lit: boolean): Promise<void> {
  await page.evaluate((on) => {
    const { host } = window as unknown as PageWindow;
    host.advance = () => {};
    host.tell('lamps', { board: 'town', ms: 0, lit: (on ? 'f' : '0').repeat(32) });
  }, lit);
  await page
    .locator(`.plan .lamp[data-look="${lit ? 'dark' : 'lit'}"]`)
    .first()
    .waitFor({ state: 'detached' });
  await settled(page);
}

function places(): Promise<Place[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('.plan .lamp')].map((lamp) => {
      const { left, top, width, height } = (lamp.querySelector('.bulb') as SVGElement).getBoundingClientRect();
      return {
        lamp: lamp.getAttribute('data-lamp') ?? '',
        colour: lamp.getAttribute('data-colour') ?? '',
        letter: lamp.querySelector('.letter')?.textContent ?? '',
        head: lamp.closest('.symbol')?.getAttribute('aria-label')?.split(':')[0] ?? '',
        x: left + width / 2,
        y: top + height / 2,
        r: width / 2,
      };
    }),
  );
}

async function bulbs(): Promise<Bulb[]> {
  const pixels = readPng(await page.screenshot());
  return (await places()).map((place) => ({ ...place, ...look(pixels, place) }));
}

/** The ground is what most of the rim of the bulb shows; the letter is what differs most from it in the middle. */
function look(pixels: Pixels, { x, y, r }: Place): { ground: Light; ink: Light } {
  const rim: Light[] = [];
  const middle: Light[] = [];
  for (let down = Math.floor(y - r); down <= y + r; down++) {
    for (let across = Math.floor(x - r); across <= x + r; across++) {
      const far = Math.hypot(across + 0.5 - x, down + 0.5 - y) / r;
      const at = (down * pixels.width + across) * 4;
      const light = lightOf(pixels.rgba[at] ?? 0, pixels.rgba[at + 1] ?? 0, pixels.rgba[at + 2] ?? 0);
      if (far > 0.7 && far < 0.82) rim.push(light);
      if (far < 0.6) middle.push(light);
    }
  }
  const ground = rim.sort((a, b) => luminance(a) - luminance(b))[Math.floor(rim.length / 2)] ?? [0, 0, 0];
  const ink = middle.reduce((most, it) => (contrast(it, ground) > contrast(most, ground) ? it : most), ground);
  return { ground, ink };
}

const shown = (screen: 'layout' | 'room', theme: Theme) =>
  bench.show({ name: screen, distance: screen, open: async () => {} }, { theme });

/** Ratios below the least, with what they are of. */
function tooClose(
  what: string,
  all: readonly Bulb[],
  pair: (bulb: Bulb) => readonly [Light, Light],
  eyes: Eyes,
): string[] {
  return all.flatMap((bulb) => {
    const [one, other] = pair(bulb);
    const ratio = contrast(seenBy(eyes, one), seenBy(eyes, other));
    return ratio < LEAST ? [`${what} ${bulb.colour} of ${bulb.head}: ${ratio.toFixed(2)}`] : [];
  });
}

test.each([
  ['layout', 'dark'],
  ['layout', 'light'],
  ['room', 'dark'],
  ['room', 'light'],
] as const)(
  '%s, %s: lit and dark differ in lightness for all eyes, and each letter can be read',
  async (screen, theme) => {
    await shown(screen, theme);
    await freeze(true);
    const lit = await bulbs();
    await freeze(false);
    const dark = await bulbs();
    expect(lit.length).toBeGreaterThan(20);
    const isSeen = lit.filter(({ x, y }) => x > 0 && y > 0 && x < 1280 && y < 720);
    expect(isSeen).toHaveLength(lit.length);
    for (const eyes of EYES) {
      const close = [
        ...tooClose(
          'lit and dark',
          lit,
          (bulb) => [
            bulb.ground,
            dark.find(({ lamp, x }) => lamp === bulb.lamp && x === bulb.x)?.ground ?? bulb.ground,
          ],
          eyes,
        ),
        ...tooClose('letter in lit', lit, (bulb) => [bulb.ground, bulb.ink], eyes),
        ...tooClose('letter in dark', dark, (bulb) => [bulb.ground, bulb.ink], eyes),
      ];
      expect(close, eyes).toEqual([]);
    }
  },
);

test('in each head every colour has its own letter and its own place, always in the same order', async () => {
  await shown('layout', 'dark');
  const heads = new Map<string, Place[]>();
  for (const place of await places()) heads.set(place.head, [...(heads.get(place.head) ?? []), place]);
  const orders = new Set<string>();
  for (const lamps of heads.values()) {
    if (lamps.length < 2 || new Set(lamps.map(({ colour }) => colour)).size < 2) continue;
    expect(new Set(lamps.map(({ letter }) => letter)).size).toBe(lamps.length);
    for (const [at, one] of lamps.entries())
      for (const other of lamps.slice(at + 1))
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(2 * one.r);
    orders.add(lamps.map(({ letter }) => letter).join(''));
  }
  expect([...orders]).toEqual(['RAG']);
});

test('across the room a letter of a lamp is at least 32 px', async () => {
  await shown('room', 'dark');
  const least = await page.evaluate(() =>
    Math.min(
      ...[...document.querySelectorAll('.plan .lamp .letter')].map((letter) => {
        const matrix = (letter as SVGGraphicsElement).getScreenCTM();
        return Number.parseFloat(getComputedStyle(letter).fontSize) * Math.hypot(matrix?.a ?? 0, matrix?.b ?? 0);
      }),
    ),
  );
  expect(least).toBeGreaterThanOrEqual(31.95);
});

test('words on the plan stand out by 4.5:1 from what is drawn behind them', async () => {
  for (const theme of ['dark', 'light'] as const) {
    await shown('layout', theme);
    await inTheme(page, theme);
    const pixels = readPng(await page.screenshot());
    const texts = await page.evaluate(() =>
      [...document.querySelectorAll('.plan text:not(.letter)')]
        .filter((it) => it.getClientRects().length > 0 && getComputedStyle(it).opacity !== '0')
        .map((it) => {
          const { left, top, width, height } = it.getBoundingClientRect();
          return { text: it.textContent ?? '', left, top, width, height };
        }),
    );
    expect(texts.length).toBeGreaterThan(3);
    const weak = texts.flatMap(({ text, left, top, width, height }) => {
      const lights: Light[] = [];
      for (let y = Math.max(0, Math.floor(top)); y < Math.min(720, top + height); y++)
        for (let x = Math.max(0, Math.floor(left)); x < Math.min(1280, left + width); x++) {
          const at = (y * pixels.width + x) * 4;
          lights.push(lightOf(pixels.rgba[at] ?? 0, pixels.rgba[at + 1] ?? 0, pixels.rgba[at + 2] ?? 0));
        }
      const sorted = lights.sort((a, b) => luminance(a) - luminance(b));
      const ground = sorted[Math.floor(sorted.length / 2)] ?? [0, 0, 0];
      const most = Math.max(contrast(sorted[0] ?? ground, ground), contrast(sorted.at(-1) ?? ground, ground));
      return most < 4.5 ? [`${theme}: ${text} ${most.toFixed(2)}`] : [];
    });
    expect(weak).toEqual([]);
  }
});
