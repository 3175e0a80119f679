/** Starts the Chromium that is on the PATH, without a window and without its own talk to the net. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome'];
const FLAGS = [
  '--no-sandbox',
  '--headless=new',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Rejects when there is none. */
export async function startBrowser(): Promise<Browser> {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const executablePath = folders.flatMap((it) => NAMES.map((name) => join(it, name))).find((it) => existsSync(it));
  if (!executablePath) throw new Error('No Chromium on the PATH: npm test installs it, or install it by hand.');
  return chromium.launch({ executablePath, args: FLAGS });
}
