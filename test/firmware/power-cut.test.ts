import { expect, test } from 'vitest';
import { toHex } from '../../shared/link/fields.ts';
import { encodeRequest } from '../../shared/link/line.ts';
import { crc16 } from '../../shared/table/crc.ts';
import { penmarrowBoard, withoutSweep } from '../timing/example.ts';
import { imageOf, Rig, storeWith } from '../timing/rig.ts';

const table = withoutSweep(penmarrowBoard().table);
const OLD = table.sites[0]?.dials[0] ?? 0;
const NEW = OLD + 2500;

interface Cut {
  /** The power failed; false when the keep was done before. */
  readonly failed: boolean;
  /** First dial after the next start, as the board tells it. */
  readonly dial: string;
  readonly lamps: string;
}

/** Keeps a nudged dial and lets the power fail in the n-th EEPROM operation from then on. */
function keepWithCut(eeprom: Uint8Array, operation: number, torn: boolean): Cut {
  const rig = new Rig(table, eeprom);
  rig.board.power(true);
  rig.runMs(300);
  rig.ask('dial', 0, 0, NEW);
  rig.board.cutPowerAt({ operation, torn });
  rig.board.write(new TextEncoder().encode(encodeRequest(0x77, 'keep')));
  const lines = rig.lines.length;
  const answered = (): boolean => rig.lines.slice(lines).some((line) => line.startsWith('=77 ok'));
  for (let ms = 0; rig.board.powered && !answered() && ms < 20_000; ms += 5) rig.runMs(5);
  const failed = !rig.board.powered;
  expect(failed || answered(), `operation ${operation}: neither cut nor kept`).toBe(true);
  rig.board.cutPowerAt(null);
  rig.board.power(false);
  rig.board.power(true);
  rig.runMs(300);
  return { failed, dial: rig.ask('dial', 0, 0), lamps: rig.lit.slice(0, 12) };
}

/** One in so many operations of what writes hundreds of bytes; all of them in the long proof (`--only cuts`). */
const SHARE = process.env.SOAK ? 1 : 4;

function everyCut(eeprom: Uint8Array, every = 1): { operations: number; old: number; fresh: number } {
  const count = { operations: 0, old: 0, fresh: 0 };
  for (let operation = 1; ; operation += every) {
    for (const torn of [true, false]) {
      const { failed, dial, lamps } = keepWithCut(eeprom, operation, torn);
      expect([`ok ${OLD}`, `ok ${NEW}`], `operation ${operation}, torn ${torn}`).toContain(dial);
      expect(lamps, 'the table runs').toBe('001100001100');
      if (!failed) {
        expect(dial).toBe(`ok ${NEW}`);
        return count;
      }
      count[dial === `ok ${OLD}` ? 'old' : 'fresh'] += 1;
    }
    count.operations = operation;
  }
}

test('power cut at every store operation of a keep: the old table or the new one, whole', () => {
  // A first keep writes the whole image into an empty slot: hundreds of bytes, erase and write each.
  const first = everyCut(storeWith(table), SHARE);
  expect(first.operations).toBeGreaterThan(200);
  expect(first.old).toBeGreaterThan(0);
  // Only the very last operation makes it the new one; the next test always comes to that.
  if (SHARE === 1) expect(first.fresh).toBeGreaterThan(0);
});

test('the same for a keep that overwrites an older table', () => {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(300);
  rig.ask('dial', 0, 0, OLD + 1000);
  expect(rig.ask('keep')).toBe('ok 2');
  rig.ask('dial', 0, 0, OLD);
  expect(rig.ask('keep')).toBe('ok 3');
  const count = everyCut(rig.board.eeprom.memory);
  // Mark, dial word, record: a handful of bytes.
  expect(count.operations).toBeGreaterThan(8);
  expect(count.old).toBeGreaterThan(0);
  expect(count.fresh).toBeGreaterThan(0);
});

/** Sends the table with another dial over the line, then keeps it, and lets the power fail in the n-th operation. */
function sendWithCut(eeprom: Uint8Array, operation: number, torn: boolean): Cut {
  const rig = new Rig(table, eeprom);
  rig.board.power(true);
  rig.runMs(300);
  const [site, ...others] = table.sites;
  const image = imageOf({
    ...table,
    sites: site ? [{ ...site, dials: [NEW, ...site.dials.slice(1)] }, ...others] : [],
  });
  const parts = Array.from({ length: Math.ceil(image.length / 16) }, (_, part) => 16 * part);
  const lines: [string, ...(string | number)[]][] = [
    ['begin', image.length, crc16(image).toString(16).toUpperCase().padStart(4, '0')],
    ...parts.map((at): [string, number, string] => ['part', at, toHex(image.subarray(at, at + 16))]),
    ['start'],
    ['keep'],
  ];
  rig.board.cutPowerAt({ operation, torn });
  for (const [at, line] of lines.entries()) {
    const from = rig.lines.length;
    rig.board.write(new TextEncoder().encode(encodeRequest(0x70 + at, line[0], line.slice(1))));
    const isAnswered = (): boolean =>
      rig.lines.slice(from).some((text) => text.startsWith('=') && text.includes(' ok'));
    for (let ms = 0; rig.board.powered && !isAnswered() && ms < 20_000; ms += 2) rig.runMs(2);
    if (!rig.board.powered) break;
    expect(isAnswered(), `${line[0]} was not answered`).toBe(true);
  }
  const failed = !rig.board.powered;
  rig.board.cutPowerAt(null);
  rig.board.power(false);
  rig.board.power(true);
  rig.runMs(300);
  return { failed, dial: rig.ask('dial', 0, 0), lamps: rig.lit.slice(0, 12) };
}

test('the same for a table that is sent and kept: staging it never touches what the board starts with', () => {
  const seen = new Set<string>();
  let operation = 1;
  for (; ; operation += SHARE * SHARE) {
    let isDone = false;
    for (const torn of [true, false]) {
      const { failed, dial, lamps } = sendWithCut(storeWith(table), operation, torn);
      expect([`ok ${OLD}`, `ok ${NEW}`], `operation ${operation}, torn ${torn}`).toContain(dial);
      expect(lamps, 'the table runs').toBe('001100001100');
      seen.add(dial);
      isDone ||= !failed;
    }
    if (isDone) break;
  }
  expect(operation).toBeGreaterThan(200);
  expect(seen).toEqual(new Set([`ok ${OLD}`, `ok ${NEW}`]));
});
