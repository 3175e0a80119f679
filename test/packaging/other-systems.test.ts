/**
 * The folders that the packages for Windows and macOS are made of, packed here around stand-ins: a program of Windows
 * that some tool of the lock brings, and an app of macOS that is none but has its shape.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Configuration, Platform } from 'electron-builder';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { packageConfig, type System } from '../../electron/package/config.ts';
import { buildParts } from '../../scripts/package/parts.ts';
import { fusesOf, standInElectron, WIRE } from './stand-in-dist.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
/** Any program in the format of Windows; the fuses are put behind it. */
const PROGRAM = join(root, 'node_modules', 'electron-winstaller', 'vendor', '7z-x64.exe');
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-systems-'));
  await buildParts(root, folder);
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function pack(platform: Platform, system: System, more: Configuration = {}): Promise<string> {
  const config = packageConfig(root, { dist: join(folder, 'dist'), platform: system });
  const output = join(folder, platform.name);
  const electronDist = join(folder, `electron-${platform.name}`);
  await build({
    ...{ projectDir: root, publish: 'never', targets: platform.createTarget('dir') },
    config: { ...config, ...more, electronDist, directories: { ...config.directories, output } },
  });
  return output;
}

const natives = (resources: string): string[] =>
  readdirSync(join(resources, 'app.asar.unpacked'), { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(resources, 'app.asar.unpacked', name)).isFile())
    .map((name) => /prebuilds\/([^-]+)-/.exec(name)?.[1] ?? name);

describe('for Windows', () => {
  it('has its fuses set, the archive named in the program, and binaries for Windows alone', async () => {
    const dist = join(folder, `electron-${Platform.WINDOWS.name}`);
    standInElectron(dist, 'electron.exe');
    writeFileSync(join(dist, 'electron.exe'), Buffer.concat([readFileSync(PROGRAM), WIRE]));
    // Icon and version are written into the program by a tool that would have to be fetched.
    const win = { ...packageConfig(root).win, signAndEditExecutable: false };
    const unpacked = join(await pack(Platform.WINDOWS, 'win32', { win }), 'win-unpacked');
    const program = readFileSync(join(unpacked, 'Amberwick.exe'));
    expect(fusesOf(program)).toBe('01001100');
    // Electron on Windows looks for this resource, and refuses an archive of another hash.
    expect(program.includes(Buffer.from('ELECTRONASAR', 'utf16le'))).toBe(true);
    expect(program.toString('latin1')).toMatch(/resources\\\\app\.asar.*"alg":"SHA256"/);
    expect(new Set(natives(join(unpacked, 'resources')))).toEqual(new Set(['win32']));
  });
});

describe('for macOS', () => {
  it('has its fuses set, the archive named in the app, its type of files, and binaries for macOS alone', async () => {
    standInApp(join(folder, `electron-${Platform.MAC.name}`, 'Electron.app', 'Contents'));
    const out = await pack(Platform.MAC, 'darwin');
    const [arch = ''] = readdirSync(out).filter((name) => name.startsWith('mac'));
    const contents = join(out, arch, 'Amberwick.app', 'Contents');
    const framework = join(contents, 'Frameworks', 'Electron Framework.framework');
    expect(fusesOf(readFileSync(join(framework, 'Electron Framework')))).toBe('01001100');
    const info = readFileSync(join(contents, 'Info.plist'), 'utf8');
    for (const part of [
      'ElectronAsarIntegrity',
      'SHA256',
      '<string>amberwick</string>',
      'Amberwick layout',
      'amberwick.workbench',
    ]) {
      expect(info).toContain(part);
    }
    expect(info).not.toContain('NSAllowsArbitraryLoads</key>\n    <true/>');
    expect(new Set(natives(join(contents, 'Resources')))).toEqual(new Set(['darwin']));
  });
});

function standInApp(contents: string): void {
  const put = (path: string, content: string | Buffer): void => {
    const file = join(contents, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
  };
  const plist = (name: string): string =>
    `<?xml version="1.0" encoding="UTF-8"?><plist version="1.0"><dict><key>CFBundleExecutable</key><string>${name}</string></dict></plist>`;
  put('Info.plist', plist('Electron'));
  put('MacOS/Electron', 'stand-in');
  const framework = 'Frameworks/Electron Framework.framework';
  put(`${framework}/Electron Framework`, Buffer.concat([Buffer.alloc(100), WIRE, Buffer.alloc(100)]));
  for (const place of ['Resources', `${framework}/Resources`, `${framework}/Versions/A/Resources`]) {
    for (const language of ['en', 'en_GB', 'de']) put(`${place}/${language}.lproj/locale.pak`, '');
  }
  for (const kind of ['', ' (GPU)', ' (Plugin)', ' (Renderer)']) {
    const helper = `Electron Helper${kind}`;
    put(`Frameworks/${helper}.app/Contents/Info.plist`, plist(helper));
    put(`Frameworks/${helper}.app/Contents/MacOS/${helper}`, 'stand-in');
  }
  put('../../LICENSE', 'of Electron');
  put('../../LICENSES.chromium.html', 'of Chromium');
}
