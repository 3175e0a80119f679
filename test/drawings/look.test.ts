/** What only a browser knows: how wide letters are. No text may lie upon another or leave the drawing. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import { phaseChart } from '../../shared/drawings/phase-chart.ts';
import { stageDiagram } from '../../shared/drawings/stage-diagram.ts';
import { timeDistanceChart } from '../../shared/drawings/time-distance.ts';
import { OFFERS } from '../../shared/layout/new-site/offers.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import { bandsOf } from '../../shared/signals/progression/bands.ts';
import { timeDistance } from '../../shared/signals/progression/time-distance.ts';
import { everyKind } from '../fixtures/sites/index.ts';
import { compiledSite, junctionOf, madeByHand, marketCross, penmarrow } from './sites.ts';

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await startBrowser();
  page = await browser.newPage({ viewport: { width: 1200, height: 800 } });
}, 60_000);
afterAll(() => browser.close());

interface Seen {
  readonly overlaps: string[];
  readonly outside: string[];
  readonly small: string[];
  readonly texts: number;
}

/** Whole boxes of letters shrink by their leading: only ink that meets counts. */
async function look(svg: string): Promise<Seen> {
  await page.setContent(`<body style="margin:0">${svg}</body>`);
  return page.evaluate(() => {
    const root = document.querySelector('svg') as SVGSVGElement;
    const frame = root.getBoundingClientRect();
    const boxes = [...root.querySelectorAll('text')].map((element) => {
      const { left, right, top, bottom } = element.getBoundingClientRect();
      const lead = (bottom - top) * 0.2;
      const own = [...element.childNodes]
        .filter((node) => node.nodeType === 3)
        .map((node) => node.textContent)
        .join('');
      return {
        text: own,
        left,
        right,
        top: top + lead,
        bottom: bottom - lead,
        size: Number.parseFloat(getComputedStyle(element).fontSize),
      };
    });
    const overlaps = boxes.flatMap((a, index) =>
      boxes.slice(index + 1).flatMap((b) => {
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        return across > 0.5 && down > 0.5 ? [`${a.text} | ${b.text}`] : [];
      }),
    );
    const outside = boxes
      .filter((it) => it.left < frame.left || it.right > frame.right || it.top < frame.top || it.bottom > frame.bottom)
      .map((it) => it.text);
    return { overlaps, outside, small: boxes.filter((it) => it.size < 14).map((it) => it.text), texts: boxes.length };
  });
}

const FINE = { overlaps: [], outside: [], small: [] };

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
  'a junction of %i phases can be read: chart, narrow chart and stages',
  async (phases) => {
    const layout = junctionOf(phases);
    const site = compiledSite(layout, 'cross');
    for (const width of [1000, 640]) {
      const seen = await look(phaseChart(site, { width }));
      expect(seen).toMatchObject(FINE);
      expect(seen.texts).toBeGreaterThan(phases * 3);
    }
    const document = layout.sites[0] as Junction;
    for (const width of [1000, 400]) {
      expect(await look(stageDiagram(document, { width, changes: document.stages.map(() => 12_500) }))).toMatchObject(
        FINE,
      );
    }
  },
);

const kinds = Object.entries(everyKind).flatMap(([kind, table]) =>
  table.sites.map((_, index) => [kind, index] as const),
);
test.each(kinds)('%s, site %i can be read', async (kind, index) => {
  expect(await look(phaseChart(madeByHand(kind, index)))).toMatchObject(FINE);
});

test.each(OFFERS.map((offer) => [offer.id, offer] as const))('a new %s can be read', async (_, offer) => {
  const bare = { ...penmarrow(), sites: [], practice: 'uk-today' };
  const layout = { ...bare, boards: bare.boards.map((board) => ({ ...board, chip: 'atmega2560' as const })) };
  const added = offer.add(layout, { name: offer.suggestName(layout), board: 'town' });
  if ('findings' in added) throw new Error(JSON.stringify(added.findings));
  const seen = await look(phaseChart(compiledSite(added.layout, added.siteId)));
  expect(seen).toMatchObject(FINE);
  expect(seen.texts).toBeGreaterThan(4);
});

test('a street with junctions close together can be read', async () => {
  const green = { start: 0, length: 26 };
  const stop = (id: string, distance: number) => ({
    id,
    name: `${id} at the end of the Esplanade`,
    distance,
    out: green,
    back: green,
  });
  const street = {
    name: 'Esplanade',
    cycle: 60,
    speed: { out: 12, back: 10 },
    stops: [stop('Pier', 0), stop('Bandstand', 90), stop('Slip', 400), stop('Lido', 520)],
  };
  const offsets = [0, 8, 33, 43];
  const data = timeDistance(street, { ...bandsOf(street, offsets), offsets });
  expect(data.bands.length).toBeGreaterThan(0);
  for (const width of [1000, 600]) expect(await look(timeDistanceChart(data, { width }))).toMatchObject(FINE);
});

test('themes: dark letters on light ground, light ones on dark, and the page decides for all', async () => {
  const paint = async (svg: string, style = ''): Promise<string[]> => {
    await page.setContent(`<body style="margin:0"><style>${style}</style>${svg}</body>`);
    return page.evaluate(() =>
      ['.aw-ground', '.aw-title'].map((it) => getComputedStyle(document.querySelector(it) as Element).fill),
    );
  };
  const site = marketCross();
  expect(await paint(phaseChart(site, { theme: 'dark' }))).toEqual(['rgb(18, 22, 26)', 'rgb(241, 237, 228)']);
  expect(await paint(phaseChart(site, { theme: 'light' }))).toEqual(['rgb(251, 249, 244)', 'rgb(23, 27, 31)']);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await paint(phaseChart(site))).toEqual(['rgb(18, 22, 26)', 'rgb(241, 237, 228)']);
  await page.emulateMedia({ colorScheme: 'light' });
  expect(await paint(phaseChart(site))).toEqual(['rgb(251, 249, 244)', 'rgb(23, 27, 31)']);
  // Two of one page keep to their own.
  const both =
    phaseChart(site, { theme: 'dark' }) + stageDiagram(junctionOf(2).sites[0] as Junction, { theme: 'light' });
  expect(await paint(both)).toEqual(['rgb(18, 22, 26)', 'rgb(241, 237, 228)']);
  expect(await paint(phaseChart(site), ':root{--ground:#010203;--ink:#fefdfc}')).toEqual([
    'rgb(1, 2, 3)',
    'rgb(254, 253, 252)',
  ]);
});
