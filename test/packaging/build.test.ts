/**
 * electron-builder packs the app for real, around a stand-in for Electron: what is inside, what lies outside the archive,
 * what the fuses are, and what the packages for Linux are told. The last step of a deb (fpm) is not run.
 */
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, Platform } from 'electron-builder';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { collectLicences } from '../../electron/host/about/licences.ts';
import { LAYOUT_TYPE, packageConfig } from '../../electron/package/config.ts';
import { buildParts } from '../../scripts/package/parts.ts';
import { archives } from './inner-parts.ts';
import { fusesOf, standInElectron } from './stand-in-dist.ts';
import { appImageTools, RUNTIME } from './tools.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
let folder: string;
let unpacked: string;
let resources: string;
/** The archive as Electron shows it: with the files that lie beside it. */
let app: string;
/** What fpm would be told, and the desktop entry. */
let told: string[] = [];
let entry = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-package-'));
  standInElectron(join(folder, 'electron'), 'electron');
  vi.stubEnv('APPIMAGE_TOOLS_PATH', appImageTools(join(folder, 'tools')));
  await buildParts(root, folder);
  const config = packageConfig(root, { dist: join(folder, 'dist'), platform: 'linux' });
  const output = join(folder, 'out');
  await build({
    projectDir: root,
    publish: 'never',
    config: { ...config, electronDist: join(folder, 'electron'), directories: { ...config.directories, output } },
    targets: Platform.LINUX.createTarget(['AppImage', 'deb']),
    effectiveOptionComputed: async (computed: unknown) => {
      if (!Array.isArray(computed)) return false;
      const [args, desktop] = computed as [string[], string];
      told = args.map(copied);
      entry = readFileSync(desktop, 'utf8');
      return true;
    },
  } as Parameters<typeof build>[0]);
  unpacked = join(output, 'linux-unpacked');
  resources = join(unpacked, 'resources');
  app = join(folder, 'app');
  archives.extractAll(join(resources, 'app.asar'), app);
}, 300_000);
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

/** Scripts and files are gone when the build ends. */
function copied(arg: string): string {
  if (!existsSync(arg) || !statSync(arg).isFile()) return arg;
  const place = join(folder, 'told');
  mkdirSync(place, { recursive: true });
  const copy = join(place, String(readdirSync(place).length));
  copyFileSync(arg, copy);
  return copy;
}

const listed = (path: string): string[] =>
  readdirSync(path, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(path, name)).isFile())
    .sort();
const following = (option: string): string => told[told.indexOf(option) + 1] ?? '';

describe('the app in its archive', () => {
  it('is the panel, the shell, the firmware, the licences and the serial library, and nothing else', () => {
    const files = listed(app);
    const parts = new Set(
      files.map((name) =>
        name
          .split('/')
          .slice(0, name.startsWith('node_modules') ? 1 : 2)
          .join('/'),
      ),
    );
    expect([...parts].sort()).toEqual([
      ...['dist/electron', 'dist/licences.json', 'dist/panel', 'firmware/images', 'node_modules', 'package.json'],
    ]);
    expect(files).toEqual(
      expect.arrayContaining([
        ...['dist/electron/shell/main.js', 'dist/electron/shell/preload.cjs', 'dist/electron/shell/worker.js'],
        ...['dist/panel/index.html', 'firmware/images/amberwick-atmega328p.hex', 'firmware/images/manifest.json'],
      ]),
    );
    const modules = new Set(files.flatMap((name) => /^node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(name)?.[1] ?? []));
    expect(modules).toContain('serialport');
    for (const stranger of ['tsx', 'esbuild', 'electron', 'vite', 'commander', 'preact'])
      expect(modules).not.toContain(stranger);
    expect(files.filter((name) => /\.(ts|map|test\.js)$/.test(name))).toEqual([]);
  });

  it('has its native binaries outside, for this system alone, and everything else inside', () => {
    const outside = listed(join(resources, 'app.asar.unpacked'));
    expect(outside.length).toBeGreaterThan(0);
    for (const name of outside) {
      expect(name).toMatch(/^node_modules\/@serialport\/bindings-cpp\/prebuilds\/linux-[^/]+\/.*\.node$/);
      expect(archives.statFile(join(resources, 'app.asar'), name)).toMatchObject({ unpacked: true });
    }
    expect(listed(app).filter((name) => name.endsWith('.node'))).toEqual(outside);
  });

  it('loads its serial library, and its firmware, licences and worker are where the bundled program looks', () => {
    const script = `const { SerialPort } = require('serialport'); console.log(typeof SerialPort.list)`;
    expect(execFileSync(process.execPath, ['-e', script], { cwd: app, encoding: 'utf8' })).toBe('function\n');
    expect(JSON.parse(readFileSync(join(app, 'dist', 'licences.json'), 'utf8'))).toEqual(collectLicences(root));
    const { main, desktopName } = JSON.parse(readFileSync(join(app, 'package.json'), 'utf8'));
    expect([existsSync(join(app, main)), desktopName]).toEqual([true, 'amberwick.desktop']);
    const program = readFileSync(join(app, main), 'utf8');
    for (const found of ['../../../firmware/images/', 'worker.js']) expect(program).toContain(found);
  });
});

describe("Electron's program", () => {
  it('has its fuses set: no Node to be run, nothing to be inspected, only the archive it came with', () => {
    expect(fusesOf(readFileSync(join(folder, 'electron', 'electron')))).toBe('10110001');
    expect(fusesOf(readFileSync(join(unpacked, 'amberwick')))).toBe('01001100');
  });

  it('comes with its licences and the languages of the app', () => {
    expect(existsSync(join(unpacked, 'LICENSE.electron.txt'))).toBe(true);
    expect(existsSync(join(unpacked, 'LICENSES.chromium.html'))).toBe(true);
    expect(listed(join(unpacked, 'locales'))).toEqual(['en-GB.pak', 'en-US.pak']);
  });
});

describe('the deb', () => {
  it('is told its name, its section, whom to ask and what it needs', () => {
    expect([following('--name'), following('--category'), following('--license')]).toEqual([
      'amberwick',
      'electronics',
      'MIT',
    ]);
    expect(following('--maintainer')).toContain('@amberwick.invalid');
    expect(packageConfig(root).deb?.depends).toEqual(expect.arrayContaining(['libnss3', 'libgtk-3-0', 'libgbm1']));
  });

  it('brings the app, the rule for boards, the icons, the type of layout files and a desktop entry', () => {
    const places = told.filter((arg) => arg.includes('=/')).map((arg) => arg.slice(arg.indexOf('=') + 1));
    expect(places).toEqual(
      expect.arrayContaining([
        ...[
          '/opt/Amberwick',
          '/usr/lib/udev/rules.d/70-amberwick-boards.rules',
          '/usr/share/mime/packages/amberwick.xml',
        ],
        ...['/usr/share/applications/amberwick.desktop', '/usr/share/icons/hicolor/256x256/apps/amberwick.png'],
      ]),
    );
    const rule = told.find((arg) => arg.endsWith('70-amberwick-boards.rules')) ?? '';
    expect(readFileSync(rule.split('=')[0] ?? '', 'utf8')).toContain('TAG+="uaccess"');
  });

  it('has scripts that a shell can read', () => {
    for (const option of ['--after-install', '--after-remove']) execFileSync('bash', ['-n', following(option)]);
  });
});

describe('the desktop entry', () => {
  it('is one by the rules of freedesktop.org, opens layouts and keeps the sandbox', () => {
    const file = join(folder, 'amberwick.desktop');
    writeFileSync(file, entry);
    execFileSync('desktop-file-validate', [file]);
    const lines = Object.fromEntries(entry.split('\n').map((line) => line.split(/=(.*)/, 2)));
    expect(lines).toMatchObject({
      ...{ Name: 'Amberwick', Exec: '/opt/Amberwick/amberwick %U', Icon: 'amberwick', StartupWMClass: 'amberwick' },
      ...{ MimeType: `${LAYOUT_TYPE.mimeType};`, Categories: 'Utility;Electronics;' },
    });
  });
});

describe('the AppImage', () => {
  it('holds the app, its entry, icon and type of files in a file system behind the runtime', () => {
    const [name = ''] = readdirSync(join(folder, 'out')).filter((it) => it.endsWith('.AppImage'));
    const image = join(folder, 'out', name);
    expect(statSync(image).mode & 0o111).toBe(0o111);
    expect(readFileSync(image).toString('latin1', 0, RUNTIME.length)).toBe(RUNTIME);
    const out = join(folder, 'image');
    execFileSync('unsquashfs', ['-q', '-n', '-o', String(RUNTIME.length), '-d', out, image], { stdio: 'ignore' });
    expect(readFileSync(join(out, 'resources', 'app.asar')).equals(readFileSync(join(resources, 'app.asar')))).toBe(
      true,
    );
    expect(fusesOf(readFileSync(join(out, 'amberwick')))).toBe('01001100');
    const desktop = readFileSync(join(out, 'amberwick.desktop'), 'utf8');
    expect(desktop).toMatch(/^Exec=AppRun +%U$/m);
    expect(desktop).not.toContain('no-sandbox');
    // For those who may not open serial devices yet.
    expect(existsSync(join(out, 'resources', '70-amberwick-boards.rules'))).toBe(true);
    const type = readFileSync(join(out, 'usr', 'share', 'mime', 'packages', 'amberwick.xml'), 'utf8');
    expect(type).toContain(LAYOUT_TYPE.mimeType);
    expect(type).toContain('*.amberwick');
  });
});
