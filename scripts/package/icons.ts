/** Draws the icon of the app in all sizes from `electron/package/icon.svg`: `npx tsx scripts/package/icons.ts`. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ICNS_EDGES, ICO_EDGES, icnsOf, icoOf } from '../../electron/package/icon-containers.ts';
import { startBrowser } from '../setup/chromium.ts';

/** Files of their own, for Linux. */
const LINUX_EDGES = [16, 32, 48, 64, 128, 256, 512];

const assets = fileURLToPath(new URL('../../electron/package/', import.meta.url));
const drawing = readFileSync(join(assets, 'icon.svg'), 'utf8');
const folder = join(assets, 'icons');
mkdirSync(folder, { recursive: true });

const browser = await startBrowser();
const pictures = new Map<number, Buffer>();
for (const edge of new Set([...LINUX_EDGES, ...ICO_EDGES, ...ICNS_EDGES])) {
  const page = await browser.newPage({ viewport: { width: edge, height: edge } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:${edge}px;height:${edge}px}</style>${drawing}`);
  pictures.set(edge, await page.screenshot({ omitBackground: true }));
  await page.close();
}
await browser.close();

for (const edge of LINUX_EDGES) writeFileSync(join(folder, `${edge}x${edge}.png`), pictures.get(edge) ?? '');
writeFileSync(join(folder, 'icon.ico'), icoOf(pictures));
writeFileSync(join(folder, 'icon.icns'), icnsOf(pictures));
