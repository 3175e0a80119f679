/** The printer of the shell on stand-ins, with Chromium in the place of the hidden window. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { makePdf } from '../../electron/host/service/sheet-pdf.ts';
import { createPdfPrinter } from '../../electron/shell/pdf.ts';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import { sheetHtml, wiringSheet } from '../../shared/drawings/sheet/page.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { readPdf } from '../fixtures/pdf-text.ts';
import { StandInContents, StandInWindow, session } from './stand-in.ts';

vi.mock('electron', () => import('./stand-in.ts'));

let browser: Browser;
/** What the page in the hidden window tried to load. */
let asked: string[] = [];

beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());
beforeEach(() => {
  asked = [];
  StandInWindow.all.length = 0;
  StandInContents.printer = printInChromium;
});

/** Serves the page as the shell's session does, with its headers, to a page without scripts. */
async function printInChromium(window: StandInWindow, options: Record<string, unknown>): Promise<Uint8Array> {
  const served = serve(window.address);
  const headers = Object.fromEntries(served.headers);
  const body = await served.text();
  const context = await browser.newContext({ javaScriptEnabled: window.options.webPreferences.javascript !== false });
  const page: Page = await context.newPage();
  await page.route('**', (route) => {
    const url = route.request().url();
    if (url === 'http://sheet.example/') return route.fulfill({ status: served.status, headers, body });
    asked.push(url);
    return route.abort();
  });
  await page.goto('http://sheet.example/');
  const made = await page.pdf({
    preferCSSPageSize: options.preferCSSPageSize === true,
    printBackground: options.printBackground === true,
  });
  await context.close();
  return made;
}

function serve(address: string, method = 'GET'): Response {
  const handler = session.partitions.get('sheet')?.protocol.handlers.get('app');
  if (!handler) throw new Error('no handler');
  return handler(new Request(address, { method }));
}

function penmarrowSheet(): string {
  const file = new URL('../../shared/layout/examples/penmarrow.json', import.meta.url);
  const { layout } = parseLayout(readFileSync(file, 'utf8'));
  if (layout === null) throw new Error('no layout');
  const options = { date: '25 November 2026', file: 'penmarrow.json' };
  return sheetHtml(wiringSheet(layout, compileLayout(layout).boards, options));
}

describe('the printer', () => {
  it('makes a PDF file of the sheet, on paper of its own size, with its styles', async () => {
    const pages = readPdf(await createPdfPrinter()(penmarrowSheet()));
    expect(pages.map(({ width, height }) => [Math.round(width), Math.round(height)])).toEqual(
      pages.map(() => [210, 297]),
    );
    expect(pages[0]?.text).toContain('Penmarrow: wiring sheet');
    expect(pages.at(-1)?.text).toContain(`Page ${pages.length} of ${pages.length}`);
    expect(asked).toEqual([]);
  });

  it('uses a window that nobody sees, in a sandbox, without scripts, in a session of its own; then it is gone', async () => {
    StandInContents.printer = async () => new Uint8Array();
    await createPdfPrinter()('<!doctype html><p>Market Cross</p>');
    const [window] = StandInWindow.all;
    expect(window?.options).toMatchObject({ show: false });
    expect(window?.options.webPreferences).toMatchObject({
      ...{ javascript: false, sandbox: true, contextIsolation: true, nodeIntegration: false, webSecurity: true },
      ...{ webviewTag: false, session: session.partitions.get('sheet') },
    });
    expect(window?.options.webPreferences).not.toHaveProperty('preload');
    expect([window?.shown, window?.destroyed]).toEqual([false, true]);
    const own = session.partitions.get('sheet');
    expect(own?.check?.()).toBe(false);
  });

  it('lets a page load nothing and run nothing, whatever is in it', async () => {
    const made = await createPdfPrinter()(
      '<!doctype html><p>before</p><img src="https://penmarrow.example/a.png"/><iframe src="https://penmarrow.example/"></iframe>' +
        '<script>document.body.textContent = "taken over"</script><script src="https://penmarrow.example/b.js"></script>',
    );
    expect(readPdf(made)[0]?.text).toBe('before');
    expect(asked).toEqual([]);
  });

  it('serves a page only while it is printed', async () => {
    let during = 0;
    StandInContents.printer = async (window) => {
      during = serve(window.address).status;
      expect(serve(window.address, 'POST').status).toBe(404);
      return new Uint8Array([1]);
    };
    await createPdfPrinter()('<p>once</p>');
    expect(during).toBe(200);
    expect(serve(StandInWindow.all[0]?.address ?? '').status).toBe(404);
  });

  it('gives up when the window does, and takes it away', async () => {
    StandInContents.printer = () => Promise.reject(new Error('no printer'));
    await expect(createPdfPrinter()('<p>one</p>')).rejects.toThrow('no printer');
    StandInContents.printer = () => new Promise(() => {});
    await expect(createPdfPrinter(20)('<p>two</p>')).rejects.toThrow('not done within 20 ms');
    expect(StandInWindow.all.map(({ destroyed }) => destroyed)).toEqual([true, true]);
  });
});

describe('the host', () => {
  const args = { name: 'penmarrow-wiring.pdf', html: '<p>Market Cross</p>' };

  it('hands the file over as text that a message can carry', async () => {
    const made = await makePdf(args, async (html) => new TextEncoder().encode(html));
    expect(made).toEqual({
      ok: true,
      value: { name: args.name, base64: Buffer.from(args.html).toString('base64') },
    });
  });

  it('says where it cannot, and what to do instead', async () => {
    const refused = {
      ok: false,
      problem: { code: 'noPdf', next: 'Print the sheet and choose a PDF file as the printer.' },
    };
    expect(await makePdf(args, undefined)).toMatchObject(refused);
    const broken = await makePdf(args, () => Promise.reject(new Error('not done within 30000 ms')));
    expect(broken).toMatchObject({ ...refused, problem: { code: 'noPdf', detail: 'not done within 30000 ms' } });
  });
});
