/** The wiring sheet in the built panel, under its real content policy: seen, chosen, printed, saved. */
import { readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makePdf } from '../../electron/host/service/sheet-pdf.ts';
import { panelHeaders } from '../../electron/host/transport/policy.ts';
import type { CallName, Scene } from '../../shared/workbench/contract.ts';
import { readPdf } from '../fixtures/pdf-text.ts';
import { PENMARROW } from './example.ts';
import { FakeWorkbench } from './fake-workbench.ts';
import { boardSays, openRig, type Rig } from './rig.ts';

const LONG = 300_000;

let rig: Rig;
let page: Page;
beforeAll(async () => {
  rig = await openRig();
  page = rig.page;
  await boardSays(page, 'runs this layout, kept');
  await page.keyboard.press('Shift+U');
  await page.locator('.sheet[aria-label="Wiring sheet"]').waitFor();
}, LONG);
afterAll(() => rig.close());

/** Texts of what is shown, seen from outside: the frame itself may run nothing, not even what a test brings. */
const shown = (selector: string): Promise<string[]> =>
  page.evaluate((what) => {
    const frame = document.querySelector('iframe.paper') as HTMLIFrameElement | null;
    return [...(frame?.contentDocument?.querySelectorAll(what) ?? [])].map((it) => it.textContent ?? '');
  }, selector);

/** Clicks and returns the file that is saved. */
async function saved(name: string): Promise<{ file: string; text: string }> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name, exact: true }).click();
  const download = await waiting;
  return { file: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

test('shows the sheet as it is printed, black on white, with its own rules', async () => {
  await expect.poll(() => shown('h1'), { timeout: 20_000 }).toEqual(['Penmarrow: wiring sheet']);
  const looks = await page.evaluate(() => {
    const frame = document.querySelector('iframe.paper') as HTMLIFrameElement;
    const inside = frame.contentDocument as Document;
    const { fontSize, color } = getComputedStyle(inside.querySelector('h1') as Element);
    const ground = getComputedStyle(inside.documentElement).backgroundColor;
    return { fontSize: Number.parseFloat(fontSize), color, ground, mode: inside.compatMode };
  });
  // 20 pt are 26.67 px of 1/96 in.
  expect(looks.fontSize).toBeCloseTo(26.67, 1);
  expect(looks).toMatchObject({ color: 'rgb(0, 0, 0)', ground: 'rgb(255, 255, 255)', mode: 'CSS1Compat' });
  expect(await shown('.pin')).toHaveLength(22);
  expect(await shown('.ruler svg')).toHaveLength(1);
  expect(rig.complaints).toEqual([]);
});

test('prints that page and no other', async () => {
  await page.evaluate(() => {
    const frame = document.querySelector('iframe.paper') as HTMLIFrameElement;
    const inside = frame.contentWindow as Window;
    inside.print = () => {
      document.body.dataset.printed = inside.document.title;
    };
  });
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await expect.poll(() => page.evaluate(() => document.body.dataset.printed)).toBe('Penmarrow: wiring sheet');
  // A browser makes PDF files itself.
  expect(await page.getByRole('button', { name: 'Save as PDF' }).count()).toBe(0);
});

test('pages and paper are chosen by keyboard; what is saved is what is shown', async () => {
  await page.getByLabel('Wire labels').focus();
  await page.keyboard.press('Space');
  await page.getByLabel('Paper').selectOption('letter');
  await expect.poll(() => shown('h2'), { timeout: 20_000 }).not.toContain('Town board: wire labels');
  const { file, text } = await saved('Save as HTML');
  expect(file).toBe('penmarrow-wiring.html');
  expect(text).toContain('@page{size:letter portrait');
  expect(text).toContain('Town board: lamps');
  expect(text).not.toContain('Town board: wire labels');
  const csv = await saved('Save as CSV');
  expect(csv.file).toBe('penmarrow-wiring.csv');
  expect(csv.text.split('\r\n')[0]).toMatch(/^Board,Output,/);
});

test('Escape closes it from within the page, too; nothing was complained about', async () => {
  await page.frameLocator('iframe.paper').locator('body').press('Escape');
  await page.locator('.sheet[aria-label="Wiring sheet"]').waitFor({ state: 'detached' });
  expect(rig.complaints).toEqual([]);
});

test(
  'in the desktop shell it is saved as a PDF file of what is shown',
  async () => {
    const desktop = await page.context().newPage();
    const host = new FakeWorkbench(PENMARROW);
    host.startExample();
    await desktop.exposeFunction('hostCall', (name: CallName, args: never) => answer(host, desktop, name, args));
    // What the preload bridge gives the panel.
    await desktop.addInitScript(() => {
      const { hostCall } = window as unknown as { hostCall: (name: string, args: unknown) => Promise<unknown> };
      localStorage.setItem('amberwick welcomed', 'yes');
      Object.assign(window, { amberwick: { call: hostCall, on: () => () => {} } });
    });
    await desktop.route('http://panel.example/**', (route) => {
      const { pathname } = new URL(route.request().url());
      const path = join(rig.panelFolder, pathname === '/' ? 'index.html' : pathname);
      return route.fulfill({ path, headers: { ...panelHeaders(null), 'Content-Type': typeOf(path) } });
    });
    await desktop.goto('http://panel.example/');
    await desktop.getByRole('heading', { name: 'Penmarrow' }).first().waitFor();
    await desktop.keyboard.press('Shift+U');
    const waiting = desktop.waitForEvent('download');
    await desktop.getByRole('button', { name: 'Save as PDF' }).click();
    const download = await waiting;
    expect(download.suggestedFilename()).toBe('penmarrow-wiring.pdf');
    const pages = readPdf(readFileSync(await download.path()));
    expect(pages.length).toBeGreaterThan(4);
    expect(pages[0]?.text).toContain('Penmarrow: wiring sheet');
    await desktop.close();
  },
  LONG,
);

/** The host of the desktop shell, with Chromium for its printer. */
async function answer(host: FakeWorkbench, desktop: Page, name: CallName, args: never): Promise<unknown> {
  if (name === 'makePdf') {
    const printed = await desktop.context().newPage();
    const outcome = await makePdf(args, async (html) => {
      await printed.setContent(html);
      return printed.pdf({ preferCSSPageSize: true });
    });
    await printed.close();
    return outcome;
  }
  const outcome = await host.call(name, args);
  if (name !== 'look' || !outcome.ok) return outcome;
  return { ok: true, value: { ...(outcome.value as Scene), host: { shell: 'electron', version: '0.0.0' } } };
}

const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };
const typeOf = (path: string): string => TYPES[extname(path)] ?? 'application/octet-stream';
