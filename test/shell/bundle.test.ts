import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildShell } from '../../electron/shell/build.ts';
import { firmwareVersion } from '../../scripts/build-firmware.ts';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
let app: string;

/** Plays the person: closes the app once the example has been kept on the virtual board. */
const person = (standIn: string): string => `
import { app, BrowserWindow } from ${JSON.stringify(standIn)};
export * from ${JSON.stringify(standIn)};
app.path = process.cwd();
app.quit = () => process.exit(0);
const watch = setInterval(() => {
  for (const [, name, data] of BrowserWindow.all[0]?.webContents.sent.splice(0) ?? []) {
    if (name !== 'log') continue;
    console.log(data.text);
    if (data.kind !== 'keep') continue;
    clearInterval(watch);
    app.emit('before-quit', { preventDefault() {} });
  }
}, 20);
`;

beforeAll(async () => {
  app = mkdtempSync(join(tmpdir(), 'amberwick-app-'));
  await buildShell(join(app, 'dist', 'electron', 'shell'));
  for (const folder of ['dist/panel', 'node_modules/electron', 'firmware']) {
    mkdirSync(join(app, folder), { recursive: true });
  }
  writeFileSync(join(app, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(app, 'dist', 'panel', 'index.html'), '<!doctype html>');
  writeFileSync(join(app, 'node_modules', 'electron', 'package.json'), '{ "type": "module", "main": "index.ts" }');
  const standIn = pathToFileURL(join(here, 'stand-in.ts')).href;
  writeFileSync(join(app, 'node_modules', 'electron', 'index.ts'), person(standIn));
  symlinkSync(join(root, 'node_modules', 'serialport'), join(app, 'node_modules', 'serialport'));
  symlinkSync(join(root, 'firmware', 'images'), join(app, 'firmware', 'images'));
});
afterAll(() => rmSync(app, { recursive: true }));

it('the bundled app opens its window, runs the example on the virtual board, and closes its log', async () => {
  const loader = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
  const child = spawn(process.execPath, ['--import', loader, join('dist', 'electron', 'shell', 'main.js')], {
    cwd: app,
    env: { ...process.env, AMBERWICK_DATA: join(app, 'data') },
  });
  let said = '';
  child.stdout.on('data', (text) => (said += text));
  child.stderr.on('data', (text) => (said += text));
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect(said.trim().split('\n')).toEqual([
    'Amberwick 1.2.3 started.',
    'Opened penmarrow.json.',
    `Connected Town board to the virtual board: ATmega328P, firmware ${firmwareVersion()}. It ran nothing.`,
    'The virtual board was new and empty, so it got the example (Town board).',
    'Sent Penmarrow to Town board; it runs and is not kept yet.',
    'Kept on Town board: the whole layout.',
  ]);
  expect(code).toBe(0);
});
