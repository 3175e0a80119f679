/** Files with things that this program does not know: told about, and not lost. */
import { describe, expect, it } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { lampAt, lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { assign } from '../../shared/layout/wiring/permute.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { moveSite } from '../fixtures/move-site.ts';
import { type Edits, edited, type Loose, layoutWithRows, smallLayout } from './small.ts';

const parsed = (layout: Loose) => parseLayout(JSON.stringify(layout));
const told = (layout: Loose): string[] => parsed(layout).findings.map((it) => `${it.severity} ${it.code} ${it.path}`);
const written = (layout: Loose): Loose => {
  const read = parsed(layout).layout;
  if (!read) throw new Error('not read');
  return JSON.parse(writeLayout(read));
};

describe('fields that are not known', () => {
  const more: Edits = {
    mood: { evening: true },
    'sites.0.trams': ['a', 'b'],
    'sites.0.phases.1.lamps.red.flicker': 3,
    'sites.1.beacons.0.banded': true,
    'sites.2.rows.0.note': 'why',
    'boards.0.fuse': { amps: 1 },
  };

  it('are each told about, and are in the file again when it is written', () => {
    const layout = edited(layoutWithRows(), more);
    expect(told(layout).sort()).toEqual(
      ['boards[0].fuse', 'mood', 'sites[0].phases[1].lamps.red.flicker', 'sites[0].trams', 'sites[1].beacons[0].banded']
        .concat('sites[2].rows[0].note')
        .map((path) => `warning unknown-key ${path}`)
        .sort(),
    );
    expect(written(layout)).toEqual({ $schema: 'urn:amberwick:layout:1', ...layout });
  });

  it('live through an edit of the site that they are in, and writing is stable', () => {
    const { layout } = parsed(edited(edited(layoutWithRows(), more), { 'sites.0.place': { x: 100, y: 100 } }));
    if (!layout) throw new Error('not read');
    const text = writeLayout(moveSite(layout, 'cross', { x: 20, y: 0 }));
    const again = JSON.parse(text);
    expect(again.sites[0].place).toEqual({ x: 120, y: 100 });
    expect([again.mood, again.sites[0].trams, again.sites[0].phases[1].lamps.red]).toEqual([
      { evening: true },
      ['a', 'b'],
      { pin: 'D5', flicker: 3 },
    ]);
    expect(writeLayout(parseLayout(text).layout ?? layout)).toBe(text);
  });

  it('are no lamps however much they look like them, and come along with the lamp that they are in', () => {
    const sound = parsed(layoutWithRows()).layout;
    const { layout } = parsed(
      edited(layoutWithRows(), {
        ...more,
        'sites.0.phases.0.lamps.violet': { pin: 'D2' },
        'sites.0.phases.0.lamps.length': 1,
        'sites.0.lights': { red: { pin: 'D3' } },
        'sites.1.lamps': [null, 'D4'],
      }),
    );
    if (!sound || !layout) throw new Error('not read');
    const paths = (of: Layout) => lampPlaces(of, of.boards[0]?.id ?? '').map(({ path }) => path);
    expect(paths(layout)).toEqual(paths(sound));
    const lit = assign(layout, 'sites[0].phases[1].lamps.red', 18);
    expect('layout' in lit && lampAt(lit.layout, 'sites[0].phases[1].lamps.red')?.lamp).toEqual({
      pin: 'A4',
      flicker: 3,
    });
  });

  it('that would reach into the language are not carried along', () => {
    const text = JSON.stringify(smallLayout()).replace('"name"', '"__proto__":{"polluted":true},"name"');
    const { layout } = parseLayout(text);
    expect(layout).not.toBeNull();
    expect((layout as Loose).polluted).toBeUndefined();
    expect(layout && writeLayout(layout)).not.toContain('polluted');
  });
});

describe('a file of a newer version', () => {
  const newer = (edits: Edits): Loose => edited(layoutWithRows(), { version: 7, ...edits });

  it('opens whole where it only has more fields, and says that it is newer', () => {
    const layout = newer({ mood: 'dusk' });
    expect(told(layout)).toEqual(['warning newer-version version', 'warning unknown-key mood']);
    expect(parsed(layout).layout).toMatchObject({ version: 1, mood: 'dusk', sites: layout.sites });
  });

  it.each<[string, Edits, string[], string[]]>([
    ['a site of an unknown kind', { 'sites.1.kind': 'tram-stop' }, ['sites[1]'], ['cross', 'lamp']],
    [
      'a value of another kind',
      { 'sites.0.stages.0.skip': 'often' },
      ['sites[0].stages[0].skip'],
      ['cross', 'zebra', 'lamp'],
    ],
    [
      'two sites and a field behind them',
      { 'sites.0.kind': 'a', 'sites.1.kind': 'b', 'sites.2.flash': 'fast' },
      ['sites[0]', 'sites[1]', 'sites[2].flash'],
      ['lamp'],
    ],
    ['a row that cannot be done', { 'sites.2.rows.1.do': 'sing' }, ['sites[2].rows[1]'], ['cross', 'zebra', 'lamp']],
  ])('leaves out %s, and says so', (_, edits, out, sites) => {
    const { layout, findings } = parsed(newer(edits));
    expect(layout?.sites.map(({ id }) => id)).toEqual(sites);
    expect(
      findings
        .filter(({ code }) => code === 'left-out')
        .map(({ path }) => path)
        .sort(),
    ).toEqual(out);
    for (const finding of findings) expect([finding.what, finding.why, finding.cure].every(Boolean)).toBe(true);
  });

  it.each<[string, Edits]>([
    ['without a board that can be understood', { 'boards.0.chip': 'another' }],
    ['in a scale that is not known', { scale: 'X' }],
    ['without sites', { sites: 'elsewhere' }],
  ])('%s is refused with what is wrong', (_, edits) => {
    const { layout, findings } = parsed(newer(edits));
    expect(layout).toBeNull();
    expect(findings.some(({ severity }) => severity === 'error')).toBe(true);
  });

  it('of the present version the same values are mistakes', () => {
    expect(parsed(edited(layoutWithRows(), { 'sites.1.kind': 'tram-stop' })).layout).toBeNull();
  });
});
