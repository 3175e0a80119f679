import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { protocol, renew } from '../../scripts/generate-vocabulary.ts';
import { CODES } from '../../shared/link/vocabulary.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { board, site } from '../fixtures/sites/build.ts';
import { twoStageProgram } from '../fixtures/sites/two-stage.ts';
import { zebra } from '../fixtures/sites/zebra.ts';

const document = readFileSync(new URL('../../firmware/PROTOCOL.md', import.meta.url), 'utf8');

describe('words, codes and numbers of the protocol', () => {
  it('are the same in C, in TypeScript and in the document', () => {
    expect(renew(true)).toEqual([]);
  });

  it('are noticed when they drift', () => {
    expect(protocol(document.replace('| 4 | `outside limits` |', '| 4 | `out of limits` |'))).toBe(document);
    expect(document).toContain('| 4 | `outside limits` |');
  });

  it('fit the lines: reasons without digits, under 33 characters', () => {
    for (const { reason } of CODES) expect(reason).toMatch(/^[a-z ]{4,32}$/);
  });
});

describe('the byte budget in the document', () => {
  it('is that of the table it speaks of', () => {
    const beacons = zebra.programs[0];
    if (!beacons) throw new Error('the fixture has no beacons');
    const junctions = Array.from({ length: 8 }, (_, i) =>
      site(`junction ${i}`, { dials: [18_000, 12_000, 3000, 2000, 1000] }),
    );
    const pairs = Array.from({ length: 4 }, (_, i) => site(`beacons ${i}`, { program: 1, dials: [750, 750] }));
    const table = board({ programs: [twoStageProgram, beacons], sites: [...junctions, ...pairs] });
    const spread = {
      ...table,
      chain: { chips: 8, data: 2, clock: 3, latch: 4, enable: 5 },
      lamps: table.lamps.map((lamp, i) => ({ ...lamp, output: 128 + i })),
    };
    const length = encodeTable(spread).bytes?.length ?? 0;
    const sum = Number(/\| sum \| {2}\| (\d+) \|/.exec(document)?.[1]);
    expect(length).toBe(sum);
    expect(sum).toBe(364);
  });
});
