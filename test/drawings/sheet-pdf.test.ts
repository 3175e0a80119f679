/** The wiring sheet as a browser prints it: sizes, text read back, lengths, nothing upon another. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import { sheetBoards } from '../../shared/drawings/sheet/boards.ts';
import type { SheetBoard, SheetOptions } from '../../shared/drawings/sheet/model.ts';
import { sheetHtml, wiringSheet } from '../../shared/drawings/sheet/page.ts';
import { postsOf } from '../../shared/drawings/sheet/posts.ts';
import { type GreyPicture, pdfPicture, readPdf } from '../fixtures/pdf-text.ts';
import { OPTIONS, sheetTown } from './sheet-town.ts';

const { layout, boards } = sheetTown();
let browser: Browser;
/** Of the pages that are printed; the one that is looked at stays as it is. */
let printed: Page;
let page: Page;
beforeAll(async () => {
  browser = await startBrowser();
  printed = await browser.newPage();
  page = await browser.newPage();
  await page.setContent(sheetHtml(wiringSheet(layout, boards, OPTIONS)));
}, 60_000);
afterAll(() => browser.close());

async function print(options: Partial<SheetOptions> = {}): Promise<Buffer> {
  await printed.setContent(sheetHtml(wiringSheet(layout, boards, { ...OPTIONS, ...options })));
  return printed.pdf({ preferCSSPageSize: true, printBackground: true });
}

test('on A4: numbered pages, the record of the check on them, no word cut off at an edge', async () => {
  const pages = readPdf(await print());
  expect(pages.length).toBeGreaterThan(8);
  pages.forEach(({ width, height, text, words }, index) => {
    // ISO 216: A4 is 210 by 297 mm.
    expect([Math.round(width), Math.round(height)]).toEqual([210, 297]);
    expect(text).toContain(`Page ${index + 1} of ${pages.length}`);
    expect(text).toContain('wiring sheet, 25 November 2026');
    for (const word of words) {
      expect(word.left).toBeGreaterThan(8);
      expect(word.right).toBeLessThan(202);
    }
  });
  const all = pages.map(({ text }) => text).join(' ');
  for (const said of [
    'Penmarrow <Parade> & "Quay": wiring sheet',
    'Lamp check 1 of 26 lamps right; finished 25 Nov 2026, 19:30, by Ann & Bob',
    'stayed dark 25 Nov 2026, 19:05, Ann & Bob',
    'check again: it was on D2',
    'another lamp lit: Lamp 5 warm-white',
  ]) {
    // The order in which a PDF keeps its words is not that of reading in every cell.
    const words = new Set(all.split(' '));
    for (const word of said.split(' ')) expect(words).toContain(word);
  }
});

test('on US letter the same pages fit', async () => {
  const pages = readPdf(await print({ paper: 'letter', board: 'town' }));
  for (const { width, height, words } of pages) {
    // ANSI/ASME Y14.1: 8.5 by 11 in.
    expect([width, height].map((mm) => Math.round(mm * 10) / 10)).toEqual([215.9, 279.4]);
    for (const { left, right } of words) expect(left > 8 && right < 208).toBe(true);
  }
});

test('a page never ends within a row or a drawing', async () => {
  const rules = await page.evaluate(() =>
    ['tr', 'figure', '.labels li', '.cautions'].map(
      (what) => getComputedStyle(document.querySelector(what) as Element).breakInside,
    ),
  );
  expect(rules).toEqual(['avoid', 'avoid', 'avoid', 'avoid']);
  // A drawing that is taller than the page would be cut all the same.
  const tallest = await page.evaluate(() =>
    Math.max(
      ...[...document.querySelectorAll('figure, .labels li, tr')].map((it) => it.getBoundingClientRect().height),
    ),
  );
  // US letter less the margins, px of 1/96 in.
  expect((tallest / 96) * 25.4).toBeLessThan(279.4 - 13 - 16 - 1);
});

test('in the drawings no word lies upon another, none leaves its drawing, none is under 14 px', async () => {
  const seen = await page.evaluate(() =>
    [...document.querySelectorAll('svg')].map((root) => {
      const frame = root.getBoundingClientRect();
      const boxes = [...root.querySelectorAll('text')].map((element) => {
        const { left, right, top, bottom } = element.getBoundingClientRect();
        const lead = (bottom - top) * 0.2;
        return { text: element.textContent ?? '', left, right, top: top + lead, bottom: bottom - lead };
      });
      const size = Number.parseFloat(getComputedStyle(root).fontSize) * (frame.width / root.viewBox.baseVal.width);
      const upon = boxes.flatMap((a, index) =>
        boxes
          .slice(index + 1)
          .filter(
            (b) =>
              Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5 &&
              Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5,
          )
          .map((b) => `${a.text} | ${b.text}`),
      );
      const outside = boxes
        .filter((it) => it.left < frame.left - 0.5 || it.right > frame.right + 0.5 || it.bottom > frame.bottom + 0.5)
        .map(({ text }) => text);
      return { texts: boxes.length, size, upon, outside };
    }),
  );
  expect(seen.length).toBeGreaterThan(4);
  for (const { texts, size, upon, outside } of seen) {
    expect(texts).toBeGreaterThan(1);
    expect(size).toBeGreaterThan(13.95);
    expect([upon, outside]).toEqual([[], []]);
  }
});

test('lengths are true: the ruler is 100 mm, the green of a 4 mm-to-the-foot signal 28 mm up', async () => {
  const made = await print({ board: 'quay', parts: ['cut'] });
  const page = readPdf(made).findIndex(({ text }) => text.includes('at scale 1:1')) + 1;
  const dpi = 508;
  const longest = (Math.max(...ruler(pdfPicture(made, page, dpi))) / dpi) * 25.4;
  // From the outer edge of the first stroke to that of the last; strokes are 0.25 mm thick.
  expect(Math.abs(longest - 100.25)).toBeLessThan(0.06);
  // Common practice, no source: 7 ft at 4 mm to the foot are 28 mm; here the middle of the lowest lens.
  const [quay] = sheetBoards(layout, boards, { board: 'quay' }) as [SheetBoard];
  const [post] = postsOf({ ...quay, layout: { ...layout, practice: 'uk-1965' } });
  expect(post?.post.lenses[0]?.up).toBeCloseTo(28, 6);
});

/** Dots of the level lines of a page that are shorter than the ground that posts stand on: the ruler's is the longest. */
function ruler({ width, height, grey }: GreyPicture): number[] {
  return Array.from({ length: height }, (_, y) => {
    let longest = 0;
    let run = 0;
    for (let x = 0; x < width; x += 1) {
      run = (grey[y * width + x] as number) < 128 ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
    return longest;
  }).filter((dots) => dots < 120 * 20);
}
