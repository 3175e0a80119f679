import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { byClass, byName, parseXml, written } from '../drawings/xml.ts';
import { example, typed } from './typed.ts';

const town = example('penmarrow');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-chart-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Penmarrow with both junctions on one cycle. */
function onOneCycle(): string {
  const layout = JSON.parse(readFileSync(town, 'utf8'));
  layout.groups = [{ id: 'fore-street', name: 'Fore Street', board: 'town', cycle: 60 }];
  for (const site of layout.sites) if (site.kind === 'junction') site.group = 'fore-street';
  const file = join(folder, 'one-cycle.json');
  writeFileSync(file, JSON.stringify(layout));
  return file;
}

describe('chart', () => {
  test('prints the phases of a site by its id or its name', async () => {
    const { exit, out, err } = await typed('chart', town, '--site', 'market-cross');
    expect([exit, err]).toEqual([0, '']);
    const svg = parseXml(out.trim());
    expect(byName(svg, 'title')[0]?.text).toBe('Market Cross: cycle 42.0 s');
    expect((await typed('chart', town, '--site', 'Market Cross')).out).toBe(out);
  });

  test('writes the stages, in one theme, into a file', async () => {
    const file = join(folder, 'stages.svg');
    const { exit, out } = await typed(
      'chart',
      town,
      '--site',
      'market-cross',
      '--kind',
      'stages',
      '--theme',
      'dark',
      '-o',
      file,
    );
    expect([exit, out]).toEqual([0, `Wrote ${file}.\n`]);
    const source = readFileSync(file, 'utf8');
    expect(source).not.toContain('prefers-color-scheme');
    const svg = parseXml(source.trim());
    expect(byClass(svg, 'aw-stage')).toHaveLength(2);
    // The changes come from the compiled site.
    expect(written(svg).match(/6\.0 s/g)).toHaveLength(2);
  });

  test('draws the junctions of a common cycle along their street', async () => {
    const { exit, out, err } = await typed(
      'chart',
      onOneCycle(),
      '--site',
      'market-cross',
      '--kind',
      'distance',
      '--speed',
      '50km/h',
    );
    // Nothing but notes on what the common cycle leaves over.
    expect([exit, err.match(/^(error|warning)/m)]).toEqual([0, null]);
    const stops = byClass(parseXml(out.trim()), 'aw-stop');
    expect(stops.map((stop) => stop.attributes['data-site'])).toEqual(['market-cross', 'chapel-corner']);
  });

  test('with --json the drawing is part of the object', async () => {
    const { exit, json } = await typed('chart', town, '--site', 'harbour-crossing', '--json');
    expect(exit).toBe(0);
    expect(json()).toMatchObject({ ok: true, site: 'harbour-crossing', kind: 'phases' });
    expect(byName(parseXml(json().svg), 'title')[0]?.text).toBe('Harbour Crossing: two flashes, 40 a minute');
  });

  test.each([
    ['no site', [], 2, /--site/],
    [
      'a site that is not there',
      ['--site', 'quay'],
      2,
      /no site "quay"[\s\S]*market-cross, chapel-corner, harbour-crossing/,
    ],
    [
      'a kind that is not there',
      ['--site', 'market-cross', '--kind', 'pie'],
      2,
      /no kind "pie"[\s\S]*phases, stages, distance/,
    ],
    [
      'a theme that is not there',
      ['--site', 'market-cross', '--theme', 'pink'],
      2,
      /no theme "pink"[\s\S]*dark, light/,
    ],
    ['a speed that is none', ['--site', 'market-cross', '--speed', 'fast'], 2, /"fast" is no speed/],
    ['stages of a zebra', ['--site', 'harbour-crossing', '--kind', 'stages'], 1, /Harbour Crossing has no stages/],
    ['the street of a site on its own', ['--site', 'market-cross', '--kind', 'distance'], 1, /on no common cycle/],
    ['a folder that is not there', ['--site', 'market-cross', '-o', '/none/at/all.svg'], 1, /could not be written/],
  ])('%s is told with the way out', async (_, words, code, said) => {
    const { exit, out, err } = await typed('chart', town, ...(words as string[]));
    expect([exit, out]).toEqual([code, '']);
    expect(err).toMatch(said as RegExp);
    const json = (await typed('chart', town, ...(words as string[]), '--json')).json();
    expect(json.ok).toBe(false);
    expect(json.findings.length + (json.problem ? 1 : 0)).toBeGreaterThan(0);
  });
});
