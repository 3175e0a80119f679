/** Reading and writing layouts: nothing is lost, nothing throws. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutJsonSchema } from '../../shared/layout/json-schema.ts';
import { migrate } from '../../shared/layout/migrate.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { LAYOUT_SCHEMA_NAME } from '../../shared/layout/schema.ts';
import { nearest } from '../../shared/layout/spelling.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { type Loose, layoutWithRows } from './small.ts';

const EXAMPLES = new URL('../../shared/layout/examples/', import.meta.url);

describe('example layouts', () => {
  it.each(readdirSync(EXAMPLES))('%s is good, compiles, fits, and is written as it was read', (file) => {
    const text = readFileSync(new URL(file, EXAMPLES), 'utf8');
    const { layout, findings } = parseLayout(text);
    expect(findings).toEqual([]);
    if (layout === null) throw new Error('not read');
    expect(writeLayout(layout)).toBe(text);
    const { boards, findings: more } = compileLayout(layout);
    expect(more).toEqual([]);
    expect(boards.map((board) => encodeTable(board.table).findings)).toEqual(layout.boards.map(() => []));
  });
});

describe('writing', () => {
  it('puts fields in the order of the schema, whatever order they came in', () => {
    const layout = layoutWithRows();
    const reversed = Object.fromEntries(Object.entries(layout).reverse());
    const [one, other] = [layout, reversed].map((it) => parseLayout(JSON.stringify(it)).layout);
    if (!one || !other) throw new Error('not read');
    expect(writeLayout(other)).toBe(writeLayout(one));
    expect(writeLayout(one).split('\n').slice(1, 3)).toEqual([
      '  "$schema": "urn:amberwick:layout:1",',
      '  "format": "amberwick-layout",',
    ]);
  });

  it('keeps every value', () => {
    const { layout } = parseLayout(JSON.stringify(layoutWithRows()));
    expect(layout).toEqual(layoutWithRows());
    expect(layout && JSON.parse(writeLayout(layout))).toEqual({ $schema: LAYOUT_SCHEMA_NAME, ...layoutWithRows() });
  });

  it('opens a file with a byte order mark and Windows line ends', () => {
    const text = `\uFEFF${JSON.stringify(layoutWithRows(), null, 2).replaceAll('\n', '\r\n')}`;
    expect(parseLayout(text).findings).toEqual([]);
  });
});

describe('any text', () => {
  it('gives a layout or a finding, and never throws', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const { layout, findings } = parseLayout(text);
        expect(layout === null).toBe(true);
        expect(findings).toHaveLength(1);
      }),
      { numRuns: 500 },
    );
  });

  it('that is a layout cut anywhere gives one finding', () => {
    const text = JSON.stringify(layoutWithRows());
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 1 }), (length) => {
        const { findings } = parseLayout(text.slice(0, length));
        expect(findings.map((it) => it.code)).toEqual(['json-truncated']);
      }),
    );
  });

  it('that is a layout with any one value replaced is compiled or told about', () => {
    const places = leaves(layoutWithRows());
    const values = fc.oneof(fc.jsonValue(), fc.constantFrom('A', 'cross', 'D2', '__proto__', 0, -1, 1e9, 13, 0.005));
    let compiled = 0;
    fc.assert(
      fc.property(fc.constantFrom(...places), values, (place, value) => {
        const layout = layoutWithRows();
        const last = place.at(-1) ?? '';
        place.slice(0, -1).reduce((at, step) => at[step], layout)[last] = value;
        const { layout: read, findings } = parseLayout(JSON.stringify(layout));
        if (read === null) {
          expect(findings.length).toBeGreaterThan(0);
          return;
        }
        const { boards, findings: more } = compileLayout(read);
        if (boards.length === 0) expect(more.some((it) => it.severity === 'error')).toBe(true);
        // What the compiler lets through is consistent: nothing but its size is left to be told.
        const images = boards.flatMap((board) => encodeTable(board.table).findings);
        expect(images.filter((it) => it.code !== 'tooLong')).toEqual([]);
        compiled += boards.length;
      }),
      { numRuns: 3000 },
    );
    expect(compiled).toBeGreaterThan(50);
  });
});

/** Paths of all values inside a document. */
function leaves(value: Loose, path: string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, item]) => [[...path, key], ...leaves(item, [...path, key])]);
}

describe('versions', () => {
  const steps = new Map([
    [1, (it: Record<string, unknown>) => ({ ...it, title: it.name })],
    [2, (it: Record<string, unknown>) => ({ ...it, title: `${it.title}!` })],
  ]);
  const old = { format: 'amberwick-layout', version: 1, name: 'Old' };

  it('are lifted one step at a time', () => {
    expect(migrate(old, steps, 3)).toEqual({ ok: true, document: { ...old, version: 3, title: 'Old!' } });
  });

  it('without a step are refused with a way out', () => {
    const result = migrate(old, new Map(), 2);
    expect(result).toMatchObject({ ok: false, finding: { code: 'wrong-version', path: 'version' } });
  });

  it('newer than this program are taken as they are, and it is said', () => {
    const result = migrate({ ...old, version: 4 }, steps, 3);
    expect(result).toMatchObject({
      ok: true,
      document: { ...old, version: 3 },
      newer: { code: 'newer-version', what: 'The file has version 4; this Amberwick knows versions up to 3.' },
    });
  });
});

describe('help with typing', () => {
  it('guesses a misspelt field', () => {
    const layout = layoutWithRows();
    layout.sites[0].phases[0].mingreen = 9;
    layout.sites[0].stages[0].xyzzy = 1;
    expect(parseLayout(JSON.stringify(layout)).findings.map((it) => it.cure)).toEqual([
      'Write "minGreen" if you meant that, or take it out.',
      'Check the spelling, or take it out.',
    ]);
  });

  it('finds the nearest word only when it is near', () => {
    expect(nearest('stagse', ['sites', 'stages', 'phases'])).toBe('stages');
    expect(nearest('lorry', ['sites', 'stages', 'phases'])).toBeNull();
  });

  it('offers a JSON Schema that knows every kind of site', () => {
    const schema = layoutJsonSchema();
    expect(schema.required).toEqual(['format', 'version', 'name', 'scale', 'practice', 'boards', 'sites']);
    expect(JSON.stringify(schema)).toMatch(/"const":"junction".*"const":"zebra".*"const":"program"/);
  });
});
