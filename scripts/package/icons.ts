/** Draws the icons of the app and of its layout files in all sizes: `npx tsx scripts/package/icons.ts`. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ICNS_EDGES, ICO_EDGES, icnsOf, icoOf } from '../../electron/package/icon-containers.ts';
import { startBrowser } from '../setup/chromium.ts';

/** Files of their own, for Linux. */
const LINUX_EDGES = [16, 32, 48, 64, 128, 256, 512];

const assets = fileURLToPath(new URL('../../electron/package/', import.meta.url));
const folder = join(assets, 'icons');
mkdirSync(folder, { recursive: true });

const browser = await startBrowser();
const app = await draw('icon.svg');
const layout = await draw('layout.svg');
await browser.close();

for (const edge of LINUX_EDGES) writeFileSync(join(folder, `${edge}x${edge}.png`), app.get(edge) ?? '');
writeFileSync(join(folder, 'icon.ico'), icoOf(app));
writeFileSync(join(folder, 'icon.icns'), icnsOf(app));
writeFileSync(join(folder, 'layout.ico'), icoOf(layout));
writeFileSync(join(folder, 'layout.icns'), icnsOf(layout, 256));

async function draw(name: string): Promise<Map<number, Buffer>> {
  const drawing = readFileSync(join(assets, name), 'utf8');
  const pictures = new Map<number, Buffer>();
  for (const edge of new Set([...LINUX_EDGES, ...ICO_EDGES, ...ICNS_EDGES])) {
    const page = await browser.newPage({ viewport: { width: edge, height: edge } });
    await page.setContent(`<style>body{margin:0}svg{display:block;width:${edge}px;height:${edge}px}</style>${drawing}`);
    pictures.set(edge, await page.screenshot({ omitBackground: true }));
    await page.close();
  }
  return pictures;
}
