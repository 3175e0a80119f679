/** Plays a script of harness commands (see harness.c) on the host-built core. */
import { spawnSync } from 'node:child_process';
import { encodeTable } from '../../../shared/table/encode.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import { imageCrc } from '../../../shared/table/shape.ts';
import { buildHostCore } from './build.ts';

/** Every line printed. Throws when the core or the script does what it must not. */
export async function play(script: readonly string[], chip: Chip = 'atmega328p', store?: number): Promise<string[]> {
  const core = await buildHostCore({ chip, ...(store === undefined ? {} : { store }) });
  const input = `${script.join('\n')}\n`;
  const { status, stdout, stderr } = spawnSync(core, { input, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (status !== 0)
    throw new Error(`the core ended with ${status}: ${stdout.split('\n').slice(-3).join(' | ')} ${stderr}`);
  return stdout.split('\n').filter((line) => line !== '');
}

/** Answers and events among the printed lines, without marks, sequence numbers and CRCs. */
export const answers = (lines: readonly string[]) =>
  lines.filter((line) => line.startsWith('> =')).map((line) => line.slice(6, -5));
export const events = (lines: readonly string[]) =>
  lines.filter((line) => line.startsWith('> !')).map((line) => line.slice(6, -5));
/** Changes of the lamps, `NOW LIT`. */
export const changes = (lines: readonly string[]) =>
  lines.filter((line) => line.startsWith('t ')).map((line) => line.slice(2));

/** The printed lines between two `say` marks, or from the last one on. */
export function between(lines: readonly string[], from: string, to?: string): string[] {
  const start = lines.indexOf(`# ${from}`);
  const end = to === undefined ? lines.length : lines.indexOf(`# ${to}`);
  if (start < 0 || end < 0) throw new Error(`the script did not say ${from} and ${to}`);
  return lines.slice(start + 1, end);
}

export function imageOf(table: BoardTable): Uint8Array {
  const { bytes, findings } = encodeTable(table);
  if (bytes === null) throw new Error(findings[0]?.what ?? 'the table does not encode');
  return bytes;
}

export const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex').toUpperCase();
export const hex4 = (value: number) => value.toString(16).toUpperCase().padStart(4, '0');

/** Commands that send an image in parts and start it; each is given the time that it may take. */
export function upload(image: Uint8Array): string[] {
  const script = [`ask begin ${image.length} ${hex4(imageCrc(image))}`, 'run 20'];
  for (let at = 0; at < image.length; at += 16)
    script.push(`ask part ${at} ${hex(image.subarray(at, at + 16))}`, 'run 100');
  return [...script, 'ask start', 'run 50'];
}
