/** Work of the page with as many live lamps as one board has: 32 sites, 128 lamps, each of its three views. */
import type { Page } from 'playwright-core';
import { writeLayout } from '../../../../shared/layout/write.ts';
import { clubLayout, FULL_BOARD } from '../../club.ts';
import type { Results } from '../results.ts';
import { type BenchApp, benchApp, quantile } from './app.ts';
import { traceFrames } from './trace.ts';

const VIEWS = [
  ['1', 'room'],
  ['2', 'layout'],
  ['3', 'desk'],
] as const;

/** How long each view is looked at, ms. */
const LOOK = 20_000;

export async function panelFrames(results: Results): Promise<void> {
  const app = await benchApp();
  try {
    await openFullBoard(app);
    for (const [key, name] of VIEWS) {
      await app.page.keyboard.press(key);
      await app.page.locator(`.app.at-${name} .lamp`).first().waitFor();
      // What opening the view costs is not what it costs to look at it.
      await app.page.waitForTimeout(2000);
      const changes = await countChanges(app.page, LOOK / 4);
      const { script, isProcessorTime } = await traceFrames(app.page, LOOK);
      const how = isProcessorTime ? 'processor time' : 'by the clock';
      results.clock(`frame-${name}`, `script a frame, ${name}, 95th percentile (${how})`, quantile(script, 0.95), 'ms');
      results.clock(`frame-${name}-median`, `the same, median of ${script.length} frames`, quantile(script, 0.5), 'ms');
      results.clock(`frame-${name}-99`, 'the same, 99th percentile', quantile(script, 0.99), 'ms');
      results.note(`touched-${name}`, `elements touched for each lamp that changes, ${name}`, changes, '');
    }
  } finally {
    await app.close();
  }
}

async function openFullBoard({ page, address }: BenchApp): Promise<void> {
  await page.goto(address);
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  const text = writeLayout(clubLayout(FULL_BOARD));
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('o');
  await (await chooser).setFiles({ name: 'full-board.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.keyboard.press('3');
  await page.locator('.file h2', { hasText: 'full-board' }).waitFor();
  const port = page.locator('.desk-column .port', { hasText: 'Virtual board' });
  await port.getByRole('button', { name: 'Connect' }).click();
  await page.getByRole('button', { name: 'Send', exact: true }).first().click();
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  const lamps = await page.locator('.lamp:not([data-look="unknown"])').count();
  if (lamps < 128) throw new Error(`${lamps} lamps live, not 128`);
  await page.keyboard.press('Escape');
  await page.locator('h1').click();
}

/** Elements of the plan that are touched while lamps change, by the lamps that changed. */
export function countChanges(page: Page, ms: number): Promise<number> {
  return page.evaluate(async (span) => {
    let lamps = 0;
    let touched = 0;
    const plan = document.querySelector('.lamp')?.closest('svg');
    if (!plan) throw new Error('no plan');
    const observer = new MutationObserver((records) => {
      for (const { attributeName } of records) {
        touched++;
        if (attributeName === 'data-look') lamps++;
      }
    });
    observer.observe(plan, { attributes: true, childList: true, characterData: true, subtree: true });
    await new Promise((done) => setTimeout(done, span));
    observer.disconnect();
    return touched / Math.max(1, lamps);
  }, ms);
}
