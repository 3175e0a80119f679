import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { collectLicences, LICENCES_FILE, readLicences } from '../../electron/host/about/licences.ts';
import { shellCalls } from '../../electron/host/about/shell-calls.ts';
import { firmwareVersion } from '../../scripts/build-firmware.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const licences = collectLicences(root);

describe('the licences', () => {
  it('are there for every package of the lock that runs with the app', () => {
    const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
    const running = Object.entries(packages as Record<string, { dev?: boolean; optional?: boolean; version: string }>)
      .filter(([place, it]) => place !== '' && !it.dev && !it.optional)
      .map(([place, { version }]) => `${place.replace(/^.*node_modules\//, '')} ${version}`);
    expect(running.length).toBeGreaterThan(25);
    const known = new Set(licences.map(({ name, version }) => `${name} ${version}`));
    expect(running.filter((it) => !known.has(it))).toEqual([]);
  });

  it('are there for everything that the sources of the app take in', () => {
    const sources = ['electron', 'renderer', 'shared'].flatMap((folder) =>
      readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
        .filter((name) => /\.(tsx?|mjs)$/.test(name))
        .map((name) => join(folder, name)),
    );
    const taken = new Set(
      sources
        // What builds the app is not inside it.
        .filter((file) => !/^electron\/(package|shell\/build\.ts)|worker-from-source/.test(file))
        .flatMap((file) => [
          ...readFileSync(join(root, file), 'utf8').matchAll(
            /^(?:import|export)\s(?:[\w*{},\s]+\sfrom\s)?'([^'.][^']*)';/gm,
          ),
        ])
        .map(([, name = '']) => /^(@[^/]+\/)?[^/]+/.exec(name)?.[0] ?? name)
        .filter((name) => !name.startsWith('node:') && !builtinModules.includes(name)),
    );
    expect([...taken]).toEqual(expect.arrayContaining(['preact', 'zod', 'serialport', 'avr8js', 'electron']));
    const known = licences.map(({ name }) => name);
    expect([...taken].filter((name) => !known.includes(name))).toEqual([]);
  });

  it('have their full texts, and name the font, Electron and what is inside the firmware', () => {
    for (const { name, licence, text } of licences) {
      expect([name, licence.length > 2, text.length > 150]).toEqual([name, true, true]);
    }
    expect(licences[0]).toMatchObject({ name: 'Amberwick', licence: 'MIT' });
    const of = (name: string) => licences.find((it) => it.name === name);
    expect(of('@fontsource-variable/atkinson-hyperlegible-next')?.text).toContain('SIL OPEN FONT LICENSE');
    expect(of('electron')?.text).toContain('Permission is hereby granted');
    expect(of('avr-libc')?.text).toContain('Redistributions in binary form must reproduce');
    expect(of('libgcc')?.licence).toContain('GCC-exception');
    expect(of('Chromium')?.text).toContain('LICENSES.chromium.html');
  });

  it('stand in order, each once', () => {
    const names = licences.slice(1).map(({ name, version }) => `${name}@${version}`);
    expect(new Set(names).size).toBe(names.length);
    const sorted = licences.slice(1).map(({ name }) => name);
    expect(sorted).toEqual([...sorted].sort((a, b) => a.localeCompare(b, 'en')));
  });

  describe('in a package', () => {
    let folder: string;
    beforeEach(() => {
      folder = mkdtempSync(join(tmpdir(), 'amberwick-about-'));
    });
    afterEach(() => rmSync(folder, { recursive: true }));

    it('come from the file that was written when it was made; without it they are missed', () => {
      expect(() => readLicences(folder)).toThrow();
      mkdirSync(dirname(join(folder, LICENCES_FILE)));
      writeFileSync(join(folder, LICENCES_FILE), JSON.stringify(licences));
      expect(readLicences(folder)).toEqual(licences);
      writeFileSync(join(folder, LICENCES_FILE), '[{"name":7}]');
      expect(() => readLicences(folder)).toThrow();
    });

    it('cannot be written while one is without its text', () => {
      for (const file of ['package.json', 'package-lock.json', 'LICENSE']) cpSync(join(root, file), join(folder, file));
      cpSync(join(root, 'electron', 'host', 'about', 'texts'), join(folder, 'electron', 'host', 'about', 'texts'), {
        recursive: true,
      });
      const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
      for (const place of Object.keys(packages)) {
        if (place === '' || !existsSync(join(root, place, 'package.json'))) continue;
        mkdirSync(join(folder, place), { recursive: true });
        cpSync(join(root, place, 'package.json'), join(folder, place, 'package.json'));
      }
      expect(() => collectLicences(folder)).toThrow(/has no text of its licence/);
    });
  });
});

describe('what the host says of the program', () => {
  it('is its version, the firmware it ships, what runs it, and the licences', async () => {
    const outcome = await shellCalls('1.2.3').about({});
    if (!outcome.ok) throw new Error(outcome.problem.what);
    const { version, firmware, runtime } = outcome.value;
    expect(version).toBe('1.2.3');
    expect(firmware).toEqual(['ATmega328P', 'ATmega2560'].map((chip) => ({ chip, version: firmwareVersion() })));
    expect(runtime.map(({ name }) => name)).toEqual(['Node', 'V8']);
    expect(runtime[0]?.version).toBe(process.versions.node);
    expect(outcome.value.licences).toEqual(licences);
  });
});
