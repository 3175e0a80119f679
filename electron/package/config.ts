/**
 * What a package is made of, for electron-builder. Its own schema checks this when a package is built, and
 * `test/packaging` does without building one.
 */
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Configuration } from 'electron-builder';
import { LICENCES_FILE } from '../host/about/licences.ts';
import { FUSES } from './fuses.ts';
import { withDependencies } from './modules.ts';

const NATIVE = 'node_modules/@serialport/bindings-cpp/prebuilds';
const RULES = '70-amberwick-boards.rules';
const SYNOPSIS = 'Workbench for working road lights on scale model layouts';

/** The media type and the ending of layout files; the type is of the unregistered tree. */
export const LAYOUT_TYPE = { ext: 'amberwick', mimeType: 'application/x-amberwick-layout+json' } as const;

/** Systems that packages are made for, as Node names them. */
export type System = 'linux' | 'win32' | 'darwin';

export interface Built {
  /** Folder of the built panel, shell and licences; by default that of the sources. */
  readonly dist?: string;
  /** System that the package is for; by default the one that this runs on. */
  readonly platform?: System;
}

/** `root` is the folder of the sources. */
export function packageConfig(root: string, built: Built = {}): Configuration {
  const { dist = join(root, 'dist'), platform = process.platform as System } = built;
  const assets = join(root, 'electron', 'package');
  const rules = join(assets, 'linux', RULES);
  return {
    appId: 'amberwick.workbench',
    productName: 'Amberwick',
    copyright: 'MIT licence',
    // Packages name an address of their maker; this one has none, and `.invalid` never is one (RFC 2606).
    extraMetadata: {
      homepage: 'https://amberwick.invalid/',
      author: { name: 'Amberwick', email: 'makers@amberwick.invalid' },
      desktopName: 'amberwick.desktop',
    },
    directories: { buildResources: assets, output: join(root, 'build', 'packages') },
    files: [
      'package.json',
      'firmware/images/**',
      { from: dist, to: 'dist', filter: ['panel/**', 'electron/**', basename(LICENCES_FILE)] },
      ...modules(root, platform),
    ],
    // Only what the system itself has to load lies outside the checked archive; its JavaScript stays inside.
    asar: { smartUnpack: false },
    asarUnpack: [`${NATIVE}/**`],
    // The serial library brings its binaries, which fit every version of Node and Electron (Node-API).
    npmRebuild: false,
    electronFuses: FUSES,
    electronLanguages: ['en-GB', 'en-US'],
    fileAssociations: [
      {
        ...LAYOUT_TYPE,
        name: 'Amberwick layout',
        description: 'Amberwick layout',
        role: 'Editor',
        // Its own file: on macOS both lie in one folder.
        icon: join(assets, 'icons', 'layout'),
      },
    ],
    publish: null,
    linux: {
      target: ['AppImage', 'deb'],
      icon: join(assets, 'icons'),
      executableName: 'amberwick',
      syncDesktopName: true,
      category: 'Utility;Electronics',
      synopsis: SYNOPSIS,
      maintainer: 'Amberwick <makers@amberwick.invalid>',
      desktop: { entry: { Keywords: 'model;railway;lights;signals;junction;' } },
      // For those who do not install the package: Help says where it belongs.
      extraResources: [{ from: rules, to: RULES }],
    },
    deb: {
      packageCategory: 'electronics',
      depends: [
        ...['libgtk-3-0', 'libnotify4', 'libnss3', 'libxss1', 'libxtst6', 'xdg-utils', 'libatspi2.0-0'],
        ...['libuuid1', 'libsecret-1-0', 'libgbm1', 'libasound2'],
      ],
      fpm: [`${rules}=/usr/lib/udev/rules.d/${RULES}`],
    },
    // The older runtime would start Chromium without its sandbox.
    toolsets: { appimage: '1.0.3' },
    appImage: { executableArgs: [] },
    win: { target: ['nsis'], icon: join(assets, 'icons', 'icon.ico') },
    nsis: {
      oneClick: false,
      allowToChangeInstallationDirectory: true,
      deleteAppDataOnUninstall: false,
      license: join(root, 'LICENSE'),
    },
    mac: {
      target: ['dmg'],
      icon: join(assets, 'icons', 'icon.icns'),
      category: 'public.app-category.utilities',
      hardenedRuntime: true,
      darkModeSupport: true,
    },
    dmg: { sign: false },
  };
}

/** Everything but the serial library is bundled into `dist` already. Of its binaries those of other systems stay at home. */
function modules(root: string, platform: System): string[] {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const wanted = withDependencies(lock, 'serialport');
  return [
    '!node_modules/**',
    ...wanted.map((place) => `${place}/**`),
    ...wanted.map((place) => `!${place}/**/*.{ts,map,md,gyp,cc,cpp,h,mm}`),
    ...[`!${NATIVE}/**`, `${NATIVE}/${platform}-*/**`],
  ];
}
