/** Pictures are read and written without a change that anybody sees. */
import { expect, test } from 'vitest';
import { quantise } from '../../scripts/screens/palette.ts';
import { readPng, writePng } from '../../scripts/screens/png.ts';
import { startBrowser } from '../../scripts/setup/chromium.ts';

test('a picture with few colours keeps each of them, and a browser reads it back', async () => {
  const browser = await startBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: 60, height: 40 } });
    await page.setContent('<body style="margin:0;background:linear-gradient(90deg,#f00 50%,#012345 50%)">');
    const pixels = readPng(await page.screenshot());
    const at = (x: number, y: number): number[] => [...pixels.rgba.subarray((y * 60 + x) * 4, (y * 60 + x) * 4 + 4)];
    expect([pixels.width, pixels.height, at(0, 0), at(59, 39)]).toEqual([60, 40, [255, 0, 0, 255], [1, 35, 69, 255]]);
    const { palette, indexes } = quantise(pixels);
    const again = writePng(60, 40, palette, indexes).toString('base64');
    await page.setContent(`<body style="margin:0"><img src="data:image/png;base64,${again}">`);
    await page.locator('img').evaluate((image: HTMLImageElement) => image.decode());
    expect(Buffer.from(readPng(await page.screenshot()).rgba).equals(Buffer.from(pixels.rgba))).toBe(true);
  } finally {
    await browser.close();
  }
});

test('of many colours the closest are taken together', () => {
  const rgba = new Uint8Array(4096 * 4).map((_, at) => (at % 4 === 3 ? 255 : ((at >> 2) * (1 + (at % 4))) & 0xff));
  const { palette, indexes } = quantise({ width: 64, height: 64, rgba });
  expect(palette.length).toBeLessThanOrEqual(768);
  const off = Math.max(
    ...rgba
      .filter((_, at) => at % 4 !== 3)
      .map((value, at) => {
        const index = indexes[Math.floor(at / 3)] ?? 0;
        return Math.abs(value - (palette[index * 3 + (at % 3)] ?? 0));
      }),
  );
  expect(off).toBeLessThan(32);
});
