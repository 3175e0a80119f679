/**
 * The shipped images under libsimavr, an emulator with which ours has nothing in common, and under ours: the same
 * bytes and levels at the same cycles, and the same outputs, lines and EEPROM.
 *
 * What must be equal: each edge of each pin and chain bit, in order; each byte from the board; the EEPROM, byte by
 * byte; and the cycle of each lamp's edge, but for a constant of each start. That constant is whole milliseconds (a
 * table that starts waits for a tick, and may just miss one) and 63 cycles, by which the first tick of timer 0 comes
 * later there, as its prescaler is in another phase.
 *
 * What may differ: libsimavr does not halt the CPU for 4 cycles in a read of the EEPROM, enters interrupts in no time
 * (ours in 2 cycles) and has no second buffer in its transmitter. So the start of a table takes less time there, and
 * what the board does beside its lamps (answers, the guard's round, which shifts the chain once more) may come before
 * an edge in one and behind it in the other: 22 cycles for each bit of the chain are the most of it.
 */
import { expect, it } from 'vitest';
import type { Chip } from '../../shared/table/format.ts';
import { type Compared, compare } from './compare.ts';
import { atRandom, example, life, type Told } from './stories.ts';
import { type Trace, underAvr8js, underSimavr } from './trace.ts';

const isLong = process.env.SOAK !== undefined;
const minutes = isLong ? 30 : 0.25;
const tables = Number(process.env.AMBERWICK_TABLES ?? (isLong ? 300 : 2));
const seed = Number(process.env.AMBERWICK_SEED ?? 1);

const CYCLES_PER_US = 16;
/** For the runner only. */
const LIMIT_MS = 36_000_000;
const CHIPS: readonly Chip[] = ['atmega328p', 'atmega2560'];

function played({ table, story }: Told): Compared {
  return compare(table, story, underAvr8js(story), underSimavr(story));
}

function expectAlike(compared: Compared, what: string): void {
  expect(compared.wrong, what).toBeNull();
  expect(compared.worst, what).toBeLessThan(250 * CYCLES_PER_US);
  expect(compared.worstAtStart, what).toBeLessThan(1500 * CYCLES_PER_US);
  for (const slip of compared.slips) expect(Math.abs(slip), what).toBeLessThan(2);
}

it.each(CHIPS)(
  'the example runs alike for minutes, nearly each edge to the cycle (%s)',
  (chip) => {
    const compared = played(example(chip, minutes));
    console.log(`${chip}, example, ${minutes} min: ${JSON.stringify(compared)}`);
    expectAlike(compared, chip);
    expect(compared.edges).toBeGreaterThan(minutes * 150);
    expect(compared.exact / compared.edges).toBeGreaterThan(0.9);
  },
  LIMIT_MS,
);

it.each(CHIPS)('upload, nudge, keep, power cut and reset are alike, down to the bytes of the EEPROM (%s)', (chip) => {
  const told = life(chip);
  const compared = played(told);
  console.log(`${chip}, life: ${JSON.stringify(compared)}`);
  expectAlike(compared, chip);
  expect(compared.slips).toHaveLength(3);
});

it.each(CHIPS)(
  'random tables with nudges, presses and levels are alike (%s)',
  (chip) => {
    let [edges, exact, worst, worstAtStart] = [0, 0, 0, 0];
    for (let at = 0; at < tables; at++) {
      const compared = played(atRandom(chip, seed + at));
      expectAlike(compared, `seed ${seed + at}`);
      edges += compared.edges;
      exact += compared.exact;
      worst = Math.max(worst, compared.worst);
      worstAtStart = Math.max(worstAtStart, compared.worstAtStart);
      if (isLong && at % 20 === 19) console.log(`${chip}: ${at + 1} of ${tables} tables`);
    }
    console.log(
      `${chip}, ${tables} tables from seed ${seed}: ${JSON.stringify({ edges, exact, worst, worstAtStart })}`,
    );
    expect(edges).toBeGreaterThan(20 * tables);
    expect(exact / edges).toBeGreaterThan(0.8);
  },
  LIMIT_MS,
);

it('an edge that is lost, turned or late, a wrong letter and a wrong byte are found', () => {
  const { table, story } = example('atmega328p', 0.25);
  const [one, other] = [underAvr8js(story), underSimavr(story)];
  const but = (change: Partial<Trace>) => compare(table, story, one, { ...other, ...change });
  expect(but({}).wrong).toBeNull();
  expect(but({ pins: other.pins.filter((_, at) => at !== 40) }).wrong).toMatch(/^edge 40: /);
  const turned = other.pins.map((edge, at) => (at === 50 ? { ...edge, level: 'z' as const } : edge));
  expect(but({ pins: turned }).wrong).toMatch(/^edge 50: .* to z/);
  const late = other.pins.map((edge, at) => (at === 50 ? { ...edge, cycles: edge.cycles + 16_000 } : edge));
  expect(but({ pins: late })).toMatchObject({ wrong: null, worst: 16_000 });
  expect(but({ text: other.text.replace('ok', 'oK') }).wrong).toMatch(/^line /);
  expect(but({ eeprom: other.eeprom.replace(/^../, '00') }).wrong).toBe('the EEPROMs differ');
});
