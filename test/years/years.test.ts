/**
 * 16 sites with random nudges on the host-built core, for a month in the soak (AMBERWICK_DAYS), some hours here: each
 * edge and each interval as in the reference interpreter, two sites as on paper, no conflict, across the wrap of the
 * millisecond counter. AMBERWICK_SEED repeats a run, AMBERWICK_TELL=HOUR tells one hour's first difference.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { type Month, runMonth } from './month.ts';
import { HOUR_MS } from './nudges.ts';

const hours = Number(process.env.AMBERWICK_DAYS ?? 1 / 12) * 24;
const seed = Number(process.env.AMBERWICK_SEED ?? 1);
const tell = process.env.AMBERWICK_TELL === undefined ? undefined : Number(process.env.AMBERWICK_TELL);
/** A month goes over the wrap at its half, and its train comes after more than 2^31 ms. */
const start = 2 ** 32 - Math.floor(hours / 2) * HOUR_MS - 1_234_567;
const trainHour = Math.floor(hours * 0.87);

it.each(['atmega328p', 'atmega2560'] as const)(
  'nothing is early, late, missed or in conflict (%s)',
  async (chip) => {
    const began = Date.now();
    const onHour = (done: number) => {
      if (done % 24 === 0) console.log(`${chip}: ${done / 24} of ${hours / 24} days, ${since(began)} s`);
    };
    const month = await runMonth({
      chip,
      hours,
      seed,
      start,
      trainHour,
      onHour,
      ...(tell === undefined ? {} : { tell }),
    });
    report(chip, month, since(began));
    if (tell !== undefined) expect(month.told[0].filter((line) => /^[trf] /.test(line))).toEqual(month.told[1]);
    expect(month.wrong, `seed ${seed}`).toBeNull();
    // A town that does nothing would agree as well: the beacons alone have 4 edges every 1.5 s.
    expect(month.edges).toBeGreaterThan((hours * HOUR_MS * 4) / 1500);
    expect(month.nudges).toBe(hours * 40);
    expect(month.refused).toBeGreaterThan(0);
    expect(month.onPaper).toBeGreaterThan((hours * HOUR_MS * 4) / 1500);
    // Shut at the start; open, and shut again.
    expect(month.gateRows).toBe(3);
  },
  36_000_000,
);

/** The first acts of the hour come a millisecond early, what follows in time. */
function early(commands: string[]): string[] {
  const runs = [...commands.keys()].filter((at) => commands[at]?.startsWith('run '));
  const moved = (at: number | undefined, by: number) => {
    if (at !== undefined) commands[at] = `run ${Number(commands[at]?.slice(4)) + by}`;
  };
  if (runs.length > 20) [moved(runs[0], -1), moved(runs[20], 1)];
  return commands;
}

it('an act that comes a millisecond early is found by the sum, lamps that meet by their pair', async () => {
  const options = { chip: 'atmega328p', hours: 1, seed, start: 0, trainHour: 0 } as const;
  expect((await runMonth({ ...options, spoil: early })).wrong).toMatch(/^hour 0: the core says "sum/);
  // Red and amber of the first junction are lit together each time before green.
  const pair = (lines: string[]) => lines.map((line) => (line.startsWith('pairs') ? 'pairs 0 1' : line));
  await expect(runMonth({ ...options, spoil: pair })).rejects.toThrow('conflicting lamps lit together');
});

function since(began: number): number {
  return Math.round((Date.now() - began) / 1000);
}

function report(chip: string, { told: _, ...month }: Month, seconds: number): void {
  const result = { what: 'years', chip, days: hours / 24, seed, start, seconds, ...month };
  console.log(JSON.stringify(result));
  if (!process.env.SOAK) return;
  const build = fileURLToPath(new URL('../../build/', import.meta.url));
  mkdirSync(build, { recursive: true });
  writeFileSync(
    `${build}years-${chip}.json`,
    `${JSON.stringify({ ...result, date: new Date().toISOString() }, null, 1)}\n`,
  );
}
