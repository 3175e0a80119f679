/** A whole layout from a few answers. */
import { describe, expect, it } from 'vitest';
import { makeLayout } from '../../shared/layout/new-layout/make.ts';
import { STARTS } from '../../shared/layout/new-layout/starts.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout, Scale } from '../../shared/layout/schema.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { missing } from '../../shared/practice/missing.ts';
import type { Practice } from '../../shared/practice/practice.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { ratioOf, SCALES } from '../../shared/scale/ratios.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';

function made(
  practice: Practice,
  start: (typeof STARTS)[number],
  scale: Scale,
  chip: Layout['boards'][number]['chip'],
) {
  if (scale === 'custom') throw new Error('not here');
  return makeLayout({
    name: 'Our town',
    scale,
    ratio: ratioOf(scale),
    practice: practice.id,
    chip,
    start,
    lacks: (kind) => missing(practice, kind) !== null,
    levelCrossingAmber: practice.levelCrossing.amber !== null,
  });
}

describe.each(PRACTICES.map((practice) => [practice.name, practice] as const))('in %s', (_, practice) => {
  it.each(STARTS.map((start) => [start.name, start] as const))(
    '%s is whole, without a finding, on either board',
    (_name, start) => {
      for (const chip of ['atmega328p', 'atmega2560'] as const) {
        const answer = made(practice, start, 'OO', chip);
        if ('findings' in answer) {
          expect(start.sites((kind) => missing(practice, kind) !== null)).toBeNull();
          expect(answer.findings.map(({ code }) => code)).toEqual(['not-in-practice']);
          return;
        }
        const { layout, findings } = parseLayout(writeLayout(answer.layout));
        expect(findings).toEqual([]);
        if (!layout) throw new Error('not read');
        const { boards, findings: more } = compileLayout(layout);
        expect(more).toEqual([]);
        expect(boards.flatMap(({ table }) => encodeTable(table).findings)).toEqual([]);
        const lamps = lampPlaces(layout, layout.boards[0]?.id ?? '');
        expect(lamps.length).toBeGreaterThan(1);
        expect(lamps.every(({ output }) => output !== null)).toBe(true);
      }
    },
  );

  it('there is a street, a junction and something else to begin with', () => {
    const there = STARTS.filter((start) => start.sites((kind) => missing(practice, kind) !== null) !== null);
    expect(there.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['crossroads', 't-junction', 'street', 'street-lamps']),
    );
  });
});

it('the street is as wide as its scale, and a plan can be read in the smallest', () => {
  const widths = SCALES.map(({ id: scale }) => {
    const [practice] = PRACTICES;
    const [start] = STARTS;
    const answer = practice && start ? made(practice, start, scale, 'atmega328p') : null;
    return answer && 'layout' in answer ? (answer.layout.roads?.[0]?.width ?? 0) : 0;
  });
  expect(Math.min(...widths)).toBe(60);
  expect(Math.max(...widths)).toBe(150);
  expect(widths).toContain(96);
});

it('another name gives another virtual board', () => {
  const [practice] = PRACTICES;
  const [start] = STARTS;
  if (!practice || !start) throw new Error('none');
  const ids = ['Our town', '', 'Überlingen!', 'x'.repeat(100)].map((name) => {
    const answer = makeLayout({
      name,
      scale: 'HO',
      ratio: 87,
      practice: practice.id,
      chip: 'atmega328p',
      start,
      lacks: () => false,
      levelCrossingAmber: true,
    });
    return 'layout' in answer ? answer.layout.boards[0]?.id : 'none';
  });
  expect(ids).toEqual(['our-town-board', 'a-crossroads-board', 'u-berlingen-board', `${'x'.repeat(30)}-board`]);
});
