/** Copies of sites: beside themselves, on another board, as text. */
import { describe, expect, it } from 'vitest';
import { copySite, pasteSite } from '../../shared/layout/copy-site/copy.ts';
import { parcelOf, readParcel, writeParcel } from '../../shared/layout/copy-site/parcel.ts';
import { inputsIn } from '../../shared/layout/copy-site/parts.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout, Site } from '../../shared/layout/schema.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { oneOfEach } from '../panel/one-of-each.ts';
import { type Loose, layoutWithRows } from './small.ts';

const town = withRoom(oneOfEach());
const siteOf = (layout: Layout, id: string): Site => layout.sites.find((site) => site.id === id) as Site;

/** A long chain, and a second board. */
function withRoom(layout: Layout): Layout {
  const [board] = layout.boards;
  if (!board?.chain) throw new Error('no chain');
  const main = { ...board, chain: { ...board.chain, chips: 16 } };
  return { ...layout, boards: [main, { ...main, id: 'second', name: 'Second board' }] };
}

function copied(result: ReturnType<typeof copySite>): { readonly layout: Layout; readonly siteId: string } {
  if ('findings' in result) throw new Error(result.findings[0]?.what);
  const { layout, findings } = parseLayout(writeLayout(result.layout));
  expect(findings).toEqual([]);
  if (!layout) throw new Error('not read');
  return { layout, siteId: result.siteId };
}

/** What a person sees of a site's lamps: which ones share an output. */
function sharing(layout: Layout, id: string): number[] {
  const outputs = lampPlaces(layout, siteOf(layout, id).board).filter(({ site }) => site === id);
  const seen = [...new Set(outputs.map(({ output }) => output))];
  return outputs.map(({ output }) => seen.indexOf(output));
}

/** The second board waits for a site. */
const mistakes = (layout: Layout) => compileLayout(layout).findings.filter(({ code }) => code !== 'idle-board');

/** Without everything that has to be another. */
function bare(site: Site): Loose {
  return JSON.parse(
    JSON.stringify(site, (key, value) =>
      ['id', 'name', 'board', 'place', 'pin', 'bit'].includes(key) ? undefined : value,
    ),
  );
}

describe.each(town.sites.map((site) => [site.kind, site] as const))('%s', (_, site) => {
  it('beside itself: the same times and heads on outputs of its own, and no finding', () => {
    const { layout, siteId } = copied(copySite(town, site.id));
    const copy = siteOf(layout, siteId);
    expect(copy.name).toMatch(new RegExp(`^${site.name.replace(/ \d+$/, '')} \\d$`));
    const plain = (value: Loose, ids: readonly string[]): Loose =>
      JSON.parse(ids.reduce((text, id) => text.replaceAll(`"${id}"`, '"input"'), JSON.stringify(value)));
    expect(plain(bare(copy), inputsIn(copy))).toEqual(plain(bare(site), inputsIn(site)));
    expect(sharing(layout, siteId)).toEqual(sharing(town, site.id));
    expect(mistakes(layout)).toEqual([]);
    // Each has buttons of its own.
    expect(inputsIn(copy).filter((id) => inputsIn(site).includes(id))).toEqual([]);
    expect(inputsIn(copy).length).toBe(inputsIn(site).length);
    if (site.place && copy.place) {
      expect(Math.hypot(copy.place.x - site.place.x, copy.place.y - site.place.y)).toBeGreaterThan(100);
    }
  });

  it('on another board, and as text into it', () => {
    const { layout, siteId } = copied(copySite(town, site.id, { board: 'second', name: 'Far away' }));
    expect(siteOf(layout, siteId)).toMatchObject({ name: 'Far away', board: 'second' });
    expect(mistakes(layout)).toEqual([]);
    const parcel = parcelOf(town, site.id);
    const read = parcel && readParcel(writeParcel(parcel));
    if (!read?.ok) throw new Error('not read');
    const pasted = copied(pasteSite(town, read.parcel, { name: site.name, board: 'second' }));
    expect(sharing(pasted.layout, pasted.siteId)).toEqual(sharing(town, site.id));
    expect(mistakes(pasted.layout)).toEqual([]);
  });
});

describe('what is shared', () => {
  it('stays shared on the same board: a button that another site asks, too, and the common cycle', () => {
    const layout = parseLayout(JSON.stringify(shared())).layout as Layout;
    const { layout: after, siteId } = copied(copySite(layout, 'cross'));
    const copy = siteOf(after, siteId) as Loose;
    expect([copy.phases[0].demand, copy.group, copy.offset]).toEqual([['button'], 'g', 4]);
    expect(after.inputs).toHaveLength(1);
    const other = copied(copySite(layout, 'cross', { board: 'b2' }));
    const far = siteOf(other.layout, other.siteId) as Loose;
    expect([far.group, far.offset, other.layout.inputs?.length]).toEqual([undefined, undefined, 2]);
    expect(far.phases[0].demand).toEqual([other.layout.inputs?.[1]?.id]);
  });

  it('row by row: lamps, dials and inputs are those of the copy', () => {
    const layout = layoutWithRows();
    layout.inputs = [{ id: 'white', name: 'The Lamp, switch', board: 'b1', pin: 'D13' }];
    layout.sites[2].rows.push({ do: 'jump', when: { is: 'inactive', inputs: ['white'] }, to: 'lit' });
    const { layout: after, siteId } = copied(copySite(parseLayout(JSON.stringify(layout)).layout as Layout, 'lamp'));
    const copy = siteOf(after, siteId) as Loose;
    // The lamp is called like the input; only the input is another one.
    expect(copy.rows[0].show).toEqual({ white: 'lit' });
    expect(copy.rows[2].when.inputs).toEqual([after.inputs?.[1]?.id]);
    expect(after.inputs?.[1]).toMatchObject({ id: 'the-lamp-2-white', name: 'The Lamp 2, switch' });
  });
});

describe('what cannot be copied', () => {
  it('a site for which the board has no room says what it needs', () => {
    const { layout } = parseLayout(JSON.stringify(shared()));
    const full = copySite(layout as Layout, 'cross', { board: 'b1' });
    const again = 'layout' in full ? copySite(full.layout, 'cross') : full;
    const last = 'layout' in again ? copySite(again.layout, 'cross') : again;
    expect('findings' in last && last.findings[0]?.what).toBe('The Cross 3 needs 6 outputs; Board 1 has 2 free.');
  });

  it('no site, no board, and text that is none', () => {
    const codes = [copySite(town, 'nowhere'), copySite(town, town.sites[0]?.id ?? '', { board: 'x' })].map((it) =>
      'findings' in it ? it.findings[0]?.code : 'copied',
    );
    expect(codes).toEqual(['no-such-site', 'unknown-board']);
    for (const text of ['', '{}', writeLayout(town), '{"format":"amberwick-site","version":2}']) {
      expect(readParcel(text).ok).toBe(false);
    }
  });
});

function shared(): Loose {
  const layout = layoutWithRows();
  layout.boards.push({ id: 'b2', name: 'Board 2', chip: 'atmega2560' });
  layout.inputs = [{ id: 'button', name: 'Button', board: 'b1', pin: 'D13' }];
  layout.groups = [{ id: 'g', name: 'Street', board: 'b1', cycle: 40 }];
  Object.assign(layout.sites[0], { group: 'g', offset: 4 });
  layout.sites[0].phases[0].demand = ['button'];
  layout.sites[2].rows.push({ do: 'jump', when: { is: 'inactive', inputs: ['button'] }, to: 'lit' });
  return layout;
}
