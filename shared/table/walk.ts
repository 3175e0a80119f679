/**
 * Where each record of an image stands, found without understanding more of it
 * than lengths. What cannot be walked is not an image.
 */
import { IMAGE_FORMAT } from './format.ts';
import {
  aspectBytes,
  CHAIN_BYTES,
  GROUP_BYTES,
  HEADER_BYTES,
  INPUT_BYTES,
  LAMP_BYTES,
  PROGRAM_HEAD_BYTES,
  rowBytes,
  SITE_HEAD_BYTES,
} from './rows.ts';

/** A program's head and the offsets of its parts. */
export interface ProgramPlace {
  readonly at: number;
  readonly length: number;
  readonly lamps: number;
  readonly dials: number;
  readonly inputs: number;
  readonly conflicts: number;
  readonly dialsAt: number;
  readonly faultAt: number;
  readonly safeAt: number;
  readonly conflictsAt: number;
  /** Offset of each row. */
  readonly rows: readonly number[];
}

export interface SitePlace {
  readonly at: number;
  readonly program: number;
  readonly inputsAt: number;
  readonly dialsAt: number;
  readonly dials: number;
}

/** Byte offsets of everything in an image. */
export interface ImagePlaces {
  readonly chips: number;
  readonly chainAt: number;
  readonly lamps: readonly number[];
  readonly inputs: readonly number[];
  readonly groups: readonly number[];
  readonly programs: readonly ProgramPlace[];
  readonly sites: readonly SitePlace[];
}

/** Why an image cannot be walked, and the byte at which that shows. */
export interface WalkError {
  readonly code: 'badFormat' | 'badLength' | 'badRow' | 'badSite';
  readonly at: number;
  readonly what: string;
}

export type Walk =
  | { readonly ok: true; readonly places: ImagePlaces }
  | { readonly ok: false; readonly error: WalkError };

/** Walks any bytes; never throws. */
export function walkImage(bytes: Uint8Array): Walk {
  const byte = (at: number) => bytes[at] ?? 0;
  const fail = (code: WalkError['code'], at: number, what: string): Walk => ({ ok: false, error: { code, at, what } });
  if (bytes.length < HEADER_BYTES) return fail('badLength', bytes.length, 'The image ends within its header.');
  if (byte(0) !== IMAGE_FORMAT) return fail('badFormat', 0, `The image has format ${byte(0)}, not ${IMAGE_FORMAT}.`);

  let at = HEADER_BYTES;
  const run = (count: number, size: number) => {
    const first = at;
    at += count * size;
    return Array.from({ length: count }, (_, index) => first + index * size);
  };
  const chips = byte(6);
  const chainAt = at;
  if (chips > 0) at += CHAIN_BYTES;
  const lamps = run(byte(3), LAMP_BYTES);
  const inputs = run(byte(4), INPUT_BYTES);
  const groups = run(byte(5), GROUP_BYTES);

  const programs: ProgramPlace[] = [];
  for (let index = 0; index < byte(1); index += 1) {
    const program = walkProgram(bytes, at);
    if ('code' in program) return { ok: false, error: program };
    programs.push(program);
    at += program.length;
  }
  const sites: SitePlace[] = [];
  for (let index = 0; index < byte(2); index += 1) {
    if (at >= bytes.length) return fail('badLength', bytes.length, 'The image ends before its last site.');
    const program = programs[byte(at)];
    if (!program) return fail('badSite', at, `There is no program ${byte(at)}.`);
    const inputsAt = at + SITE_HEAD_BYTES;
    const dialsAt = inputsAt + program.inputs;
    sites.push({ at, program: byte(at), inputsAt, dialsAt, dials: program.dials });
    at = dialsAt + 2 * program.dials;
  }
  if (at !== bytes.length)
    return fail('badLength', Math.min(at, bytes.length), `The parts need ${at} bytes, the image has ${bytes.length}.`);
  return { ok: true, places: { chips, chainAt, lamps, inputs, groups, programs, sites } };
}

function walkProgram(bytes: Uint8Array, at: number): ProgramPlace | WalkError {
  const byte = (offset: number) => bytes[at + offset] ?? 0;
  if (at + PROGRAM_HEAD_BYTES > bytes.length) {
    return { code: 'badLength', at: Math.min(at, bytes.length), what: 'The image ends within the head of a program.' };
  }
  const length = byte(0) | (byte(1) << 8);
  const [lamps, dials, inputs, rowCount, conflicts] = [byte(2), byte(3), byte(4), byte(5), byte(7)];
  const dialsAt = at + PROGRAM_HEAD_BYTES;
  const faultAt = dialsAt + 4 * dials;
  const safeAt = faultAt + aspectBytes(lamps);
  const conflictsAt = safeAt + aspectBytes(lamps);
  let next = conflictsAt + 2 * conflicts;
  const rows: number[] = [];
  for (let row = 0; row < rowCount; row += 1) {
    if (next >= bytes.length) return { code: 'badLength', at: bytes.length, what: 'The image ends within a program.' };
    const size = rowBytes((bytes[next] ?? 0) & 15, lamps);
    if (size === null) return { code: 'badRow', at: next, what: `Row ${row} has an unknown operation.` };
    rows.push(next);
    next += size;
  }
  if (next - at !== length || next > bytes.length) {
    return { code: 'badLength', at, what: `A program says ${length} bytes, its parts need ${next - at}.` };
  }
  return { at, length, lamps, dials, inputs, conflicts, dialsAt, faultAt, safeAt, conflictsAt, rows };
}
