/**
 * Which images a board refuses: the firmware's core and the checks of the app,
 * both written from firmware/PROTOCOL.md, on damaged images. AMBERWICK_RUNS of
 * them for each chip, from AMBERWICK_SEED on.
 */
import { expect, it } from 'vitest';
import { CODES } from '../../shared/link/vocabulary.ts';
import { decodeTable } from '../../shared/table/decode.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { buildHostCore } from '../firmware/host/build.ts';
import { chance, seededDice } from '../fixtures/dice.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { hexOf, runCore } from '../interpreter/core-process.ts';

const runs = Number(process.env.AMBERWICK_RUNS ?? 400);
const first = Number(process.env.AMBERWICK_SEED ?? 1);

/** A good image with a few bytes changed, now and then cut or made longer. */
function damagedImage(seed: number, chip: Chip): Uint8Array {
  const dice = seededDice(seed);
  const image = encodeTable(randomTable(dice, chip)).bytes;
  if (!image) throw new Error('no image');
  for (let count = dice.int(1, 2); count > 0; count -= 1) {
    const at = dice.int(0, image.length - 1);
    const near = (image[at] ?? 0) + dice.int(-2, 2);
    image[at] = chance(dice, 60) ? near : dice.int(0, 255);
  }
  if (chance(dice, 5)) return image.slice(0, dice.int(0, image.length));
  return chance(dice, 5) ? Uint8Array.from([...image, 0]) : image;
}

/** Sends an image to a blank board, as a host does; the last answer is that of `start`. */
function upload(image: Uint8Array): string[] {
  const crc = imageCrc(image).toString(16).toUpperCase().padStart(4, '0');
  const parts = Array.from({ length: Math.ceil(image.length / 16) }, (_, part) => {
    return [`ask part ${16 * part} ${hexOf(image.subarray(16 * part, 16 * part + 16))}`, 'run 120'];
  });
  return [
    'off',
    'eeprom blank',
    'on',
    'company 1',
    `ask begin ${image.length} ${crc}`,
    'run 100',
    ...parts.flat(),
    'ask start',
    'run 1000',
  ];
}

/** The code of a refusal, 0 for an image that was taken. */
function verdict(printed: readonly string[]): number {
  const answer = printed.filter((line) => line.startsWith('> =')).at(-1) ?? '';
  const code = /^> =.. no (\d+)/.exec(answer)?.[1];
  if (!code && !/^> =.. ok [0-9A-F]{4} /.test(answer)) throw new Error(`no verdict: ${answer}`);
  return Number(code ?? 0);
}

it.each(['atmega328p', 'atmega2560'] as const)(
  'app and board refuse the same images of the %s, for a reason that both know',
  async (chip: Chip) => {
    const seeds = Array.from({ length: runs }, (_, index) => first + index);
    const images = seeds.map((seed) => damagedImage(seed, chip)).map((image, index) => ({ seed: seeds[index], image }));
    const sent = images.filter(({ image }) => image.length > 0);
    console.info(`${chip}: seeds ${first} to ${first + runs - 1}`);
    const boards = runCore(
      await buildHostCore({ chip }),
      sent.map(({ image }) => upload(image)),
    );
    let taken = 0;
    for (const { seed, image } of sent) {
      const { value } = await boards.next();
      const code = verdict(value ?? []);
      const { table, findings } = decodeTable(image, chip);
      const key = CODES.find((entry) => entry.code === code)?.key;
      const said = `seed ${seed}: board ${key ?? 'takes it'}, app ${JSON.stringify(findings.map((finding) => [finding.code, finding.path]))}`;
      expect(code === 0, said).toBe(findings.length === 0);
      // Where the parts do not fit together, what is seen first depends on where one looks first.
      if (code !== 0 && table)
        expect(
          findings.map((finding) => finding.code),
          said,
        ).toContain(key);
      if (code === 0) taken += 1;
    }
    await boards.return(undefined);
    // Damage that is harmless and damage that is not must both have been tried.
    expect(taken).toBeGreaterThan(runs / 20);
    expect(sent.length - taken).toBeGreaterThan(runs / 5);
  },
  3_600_000,
);
