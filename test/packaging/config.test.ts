import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { lookOf } from '../../electron/host/serial/bridges.ts';
import { LAYOUT_TYPE, packageConfig } from '../../electron/package/config.ts';
import { ICO_EDGES, icnsOf, icoOf } from '../../electron/package/icon-containers.ts';
import { withDependencies } from '../../electron/package/modules.ts';
import { checkConfiguration } from './inner-parts.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const assets = join(root, 'electron', 'package');

describe('the configuration', () => {
  it('is one by the schema of electron-builder', async () => {
    await checkConfiguration(packageConfig(root));
    // And the schema would have said so.
    await expect(checkConfiguration({ ...packageConfig(root), asarUnpak: [] })).rejects.toThrow(/asarUnpak/);
    await expect(checkConfiguration({ ...packageConfig(root), linux: { categry: 'Utility' } })).rejects.toThrow(
      /linux/,
    );
  });

  it('makes an AppImage and a deb for Linux, an installer for Windows, a disk image for macOS', () => {
    const { linux, win, mac } = packageConfig(root);
    expect([linux?.target, win?.target, mac?.target]).toEqual([['AppImage', 'deb'], ['nsis'], ['dmg']]);
  });

  it('never starts Chromium without its sandbox', () => {
    const { linux, deb, appImage, toolsets } = packageConfig(root);
    expect([linux?.executableArgs, deb?.executableArgs, appImage?.executableArgs]).toEqual([undefined, undefined, []]);
    // Launchers of the older one add --no-sandbox by themselves.
    expect(toolsets?.appimage).not.toBe('0.0.0');
    expect(JSON.stringify(packageConfig(root))).not.toContain('no-sandbox');
  });

  it('knows layout files by an ending and a type of their own', () => {
    const [association] = [packageConfig(root).fileAssociations ?? []].flat();
    expect(association).toMatchObject({ ...LAYOUT_TYPE, role: 'Editor' });
    expect(LAYOUT_TYPE.ext).toBe('amberwick');
  });
});

describe('the serial library', () => {
  it('is packed with all it needs, also what lies inside one of its own', () => {
    const packages = {
      '': { dependencies: { a: '1', x: '1' } },
      'node_modules/a': { dependencies: { b: '1', c: '2' } },
      'node_modules/a/node_modules/c': { dependencies: { '@s/d': '1' } },
      'node_modules/b': { dependencies: { c: '1', a: '1' } },
      'node_modules/c': {},
      'node_modules/@s/d': {},
      'node_modules/x': {},
    };
    expect(withDependencies({ packages }, 'a')).toEqual([
      ...['node_modules/@s/d', 'node_modules/a', 'node_modules/a/node_modules/c', 'node_modules/b', 'node_modules/c'],
    ]);
    expect(() => withDependencies({ packages: { 'node_modules/a': { dependencies: { b: '1' } } } }, 'a')).toThrow(
      'no b',
    );
  });
});

describe('the rule for boards on Linux', () => {
  const rules = readFileSync(join(assets, 'linux', '70-amberwick-boards.rules'), 'utf8');
  const lines = rules.split('\n').filter((line) => line.includes('idVendor'));
  const idsOf = (line: string) => ({
    vendorId: /idVendor\}=="([0-9a-f]{4})"/.exec(line)?.[1],
    productId: /idProduct\}=="([0-9a-f]{4})"/.exec(line)?.[1],
  });

  it('names every USB chip that the app takes for a board, and no other device', () => {
    const source = readFileSync(join(root, 'electron', 'host', 'serial', 'bridges.ts'), 'utf8');
    const chips = [...source.matchAll(/'([0-9a-f]{4}):([0-9a-f]{4})'/g)].map(([, vendorId, productId]) => ({
      vendorId,
      productId,
    }));
    const vendors = [...(/OWN_USB.*= \[([^\]]*)\]/.exec(source)?.[1]?.matchAll(/[0-9a-f]{4}/g) ?? [])].map(
      ([vendorId]) => ({
        vendorId,
        productId: undefined,
      }),
    );
    expect(chips.length + vendors.length).toBeGreaterThan(8);
    expect(lines.map(idsOf)).toEqual([...chips, ...vendors]);
    for (const ids of lines.map(idsOf))
      expect(lookOf({ path: '', vendorId: ids.vendorId, productId: ids.productId ?? '0043' }).likely).toBe(true);
  });

  it('gives serial devices to the person at the computer, in a file read before the seat is given', () => {
    for (const line of lines) expect(line).toMatch(/, TAG\+="uaccess"$/);
    expect(rules).toContain('SUBSYSTEM!="tty", GOTO="amberwick_end"');
    expect(rules.trim().endsWith('LABEL="amberwick_end"')).toBe(true);
    expect('70-amberwick-boards.rules' < '73-seat-late.rules').toBe(true);
  });
});

describe('the icon', () => {
  /** Edge of a PNG by its header. */
  const edge = (png: Buffer): number => {
    expect(png.toString('latin1', 1, 4)).toBe('PNG');
    expect(png.readUInt32BE(16)).toBe(png.readUInt32BE(20));
    return png.readUInt32BE(16);
  };

  it('is there in the sizes that Linux asks for', () => {
    for (const size of [16, 32, 48, 64, 128, 256, 512]) {
      expect(edge(readFileSync(join(assets, 'icons', `${size}x${size}.png`)))).toBe(size);
    }
  });

  it('is there for Windows: each entry of the directory points at a picture of its size', () => {
    const ico = readFileSync(join(assets, 'icons', 'icon.ico'));
    expect([ico.readUInt16LE(0), ico.readUInt16LE(2), ico.readUInt16LE(4)]).toEqual([0, 1, ICO_EDGES.length]);
    let end = 6 + 16 * ICO_EDGES.length;
    for (const [at, size] of ICO_EDGES.entries()) {
      const entry = 6 + 16 * at;
      const [length, offset] = [ico.readUInt32LE(entry + 8), ico.readUInt32LE(entry + 12)];
      expect([ico.readUInt8(entry) || 256, offset]).toEqual([size, end]);
      expect(edge(ico.subarray(offset, offset + length))).toBe(size);
      end += length;
    }
    expect(end).toBe(ico.length);
  });

  it('is there for macOS: types and lengths add up to the file', () => {
    const icns = readFileSync(join(assets, 'icons', 'icon.icns'));
    expect([icns.toString('latin1', 0, 4), icns.readUInt32BE(4)]).toEqual(['icns', icns.length]);
    const found: Record<string, number> = {};
    for (let at = 8; at < icns.length; at += icns.readUInt32BE(at + 4)) {
      found[icns.toString('latin1', at, at + 4)] = edge(icns.subarray(at + 8));
    }
    expect(found).toEqual({ ic11: 32, ic12: 64, ic07: 128, ic13: 256, ic08: 256, ic14: 512, ic09: 512, ic10: 1024 });
  });

  it('of layout files is another file, as both lie in one folder on macOS', () => {
    const icns = readFileSync(join(assets, 'icons', 'layout.icns'));
    expect(icns.readUInt32BE(4)).toBe(icns.length);
    const config = packageConfig(root);
    const [association] = [config.fileAssociations ?? []].flat();
    expect(`${association?.icon}.icns`).toBe(join(assets, 'icons', 'layout.icns'));
    expect(config.mac?.icon).not.toBe(`${association?.icon}.icns`);
  });

  it('cannot be put together from less', () => {
    expect(() => icoOf(new Map())).toThrow('no picture of 16 pixels');
    expect(() => icnsOf(new Map([[32, new Uint8Array(8)]]))).toThrow('no picture of 64 pixels');
  });
});
