import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findWindowProgram } from '../../scripts/start/window.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const desk = { platform: 'linux', env: { DISPLAY: ':0' }, isRoot: false } as const;

/** An installed Electron package; with `program`, the program that its installer fetches. */
function electron(program: boolean): void {
  const home = join(folder, 'node_modules', 'electron');
  mkdirSync(join(home, 'dist'), { recursive: true });
  writeFileSync(join(home, 'install.js'), '');
  if (!program) return;
  writeFileSync(join(home, 'path.txt'), 'electron');
  writeFileSync(join(home, 'dist', 'electron'), '');
}

describe('whether there can be a window', () => {
  const never = (): boolean => {
    throw new Error('nothing is to be fetched');
  };

  it('yes, where the program is', () => {
    electron(true);
    const path = join(folder, 'node_modules', 'electron', 'dist', 'electron');
    expect(findWindowProgram(folder, desk, never)).toEqual({ ok: true, path });
  });

  it('yes, where it can be fetched', () => {
    electron(false);
    const fetched = findWindowProgram(folder, desk, () => {
      electron(true);
      return true;
    });
    expect(fetched.ok).toBe(true);
  });

  it('no, where it cannot', () => {
    electron(false);
    expect(findWindowProgram(folder, desk, () => false)).toEqual({
      ok: false,
      why: "Electron's program is not here and could not be fetched",
    });
  });

  it('no, without a display, and none for root; nothing is fetched for them', () => {
    electron(false);
    expect(findWindowProgram(folder, { ...desk, env: {} }, never)).toMatchObject({
      why: 'this computer has no display',
    });
    expect(findWindowProgram(folder, { ...desk, isRoot: true }, never)).toMatchObject({
      why: 'the sandbox cannot work for root',
    });
  });
});

describe('npm start', () => {
  const start = (args: string[]): { child: ChildProcess; said: () => string } => {
    const env = { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '' };
    const child = spawn(process.execPath, [join(root, 'scripts', 'start.mjs'), ...args], { env });
    let said = '';
    child.stdout?.on('data', (text) => (said += text));
    child.stderr?.on('data', (text) => (said += text));
    return { child, said: () => said };
  };

  it('without a display serves the panel to the browser, says so in one line, and ends when asked', async () => {
    const { child, said } = start(['--data', folder]);
    const closed = new Promise((resolve) => child.once('close', resolve));
    const address = await new Promise<string>((resolve, reject) => {
      child.once('close', () => reject(new Error(said())));
      child.stdout?.on('data', () => {
        const found = /Amberwick runs at (\S+)/.exec(said())?.[1];
        if (found) resolve(found);
      });
    });
    expect(said()).toContain('No window, for this computer has no display; the panel is for your browser instead.\n');
    const entry = await fetch(address, { redirect: 'manual' });
    const cookie = String(entry.headers.get('set-cookie')).split(';')[0] ?? '';
    const page = await (await fetch(new URL('/', address), { headers: { cookie } })).text();
    const script = /<script [^>]*src="([^"]+)"/.exec(page)?.[1] ?? '';
    expect((await fetch(new URL(script, address), { headers: { cookie } })).status).toBe(200);
    child.kill('SIGTERM');
    expect(await closed).toBe(0);
    const [log = ''] = readdirSync(join(folder, 'sessions'));
    expect(
      readFileSync(join(folder, 'sessions', log), 'utf8')
        .trim()
        .split('\n')
        .at(-1),
    ).toContain('Amberwick was closed.');
  });

  it('explains itself to those who ask for something else', async () => {
    const { child, said } = start(['--colour']);
    expect(await new Promise((resolve) => child.once('close', resolve))).toBe(2);
    expect(said()).toContain('npm start -- [--browser]');
  });
});
