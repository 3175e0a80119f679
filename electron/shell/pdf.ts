/**
 * Turns a page of HTML into a PDF file, in a window that nobody sees. The page is data, whoever made it: it runs
 * no script, opens no connection, reads no file and goes nowhere.
 */
import { BrowserWindow, type Session, session } from 'electron';
import type { PdfPrinter } from '../host/service/sheet-pdf.ts';
import { SCHEME } from './address.ts';
import { guardPermissions } from './guards.ts';

/** A host of its own: not the panel's, so that calls from here would be refused as well. */
const HOST = 'sheet';
/** Longest that loading and printing may take, ms. */
const PATIENCE = 30_000;

const HEADERS = {
  'Content-Type': 'text/html; charset=utf-8',
  'Content-Security-Policy':
    "default-src 'none'; style-src 'unsafe-inline'; form-action 'none'; base-uri 'none'; sandbox",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cache-Control': 'no-store',
};

/** Pages are served from memory to a session that keeps nothing and shares nothing with the panel. */
export function createPdfPrinter(patience = PATIENCE): PdfPrinter {
  const pages = new Map<string, string>();
  let next = 0;
  let own: Session | null = null;
  return async (html) => {
    own ??= sheetSession(pages);
    const address = `${SCHEME}://${HOST}/${next++}`;
    pages.set(address, html);
    const window = hiddenWindow(own);
    try {
      return await inTime(print(window, address), patience);
    } finally {
      pages.delete(address);
      // Closing would ask the page; there is nothing to save.
      window.destroy();
    }
  };
}

function sheetSession(pages: ReadonlyMap<string, string>): Session {
  const own = session.fromPartition('sheet', { cache: false });
  guardPermissions(own);
  own.protocol.handle(SCHEME, (request) => {
    const page = request.method === 'GET' ? pages.get(request.url) : undefined;
    return page === undefined
      ? new Response(null, { status: 404, headers: HEADERS })
      : new Response(page, { headers: HEADERS });
  });
  return own;
}

/** Checklist 2 to 4 and 6 of the Electron documentation, and no script at all. */
function hiddenWindow(own: Session): BrowserWindow {
  return new BrowserWindow({
    show: false,
    webPreferences: {
      session: own,
      javascript: false,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
}

async function print(window: BrowserWindow, address: string): Promise<Uint8Array> {
  await window.loadURL(address);
  // Paper and margins are those of the page's own rules, so that 1 mm stays 1 mm.
  return window.webContents.printToPDF({ preferCSSPageSize: true, printBackground: true, generateTaggedPDF: true });
}

function inTime<T>(work: Promise<T>, ms: number): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`not done within ${ms} ms`)), ms);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
