/** What two images have in common whose sites do the same in the same order, whatever their times. */
import { GROUP_BYTES, SITE_HEAD_BYTES } from './rows.ts';
import { type ProgramPlace, type SitePlace, walkImage } from './walk.ts';

/** Bytes of one dial's limits in a program. */
const LIMIT_BYTES = 4;

/**
 * Lamps, inputs, rows and conflicts of every site as text. Left out: all times, their limits, the length of the
 * first interval, and which sites share a program. Images of equal structure differ in these only; those of equal
 * `imageShape` have the same limits, too. Null when it is no image.
 */
export function imageStructure(bytes: Uint8Array): string | null {
  const walk = walkImage(bytes);
  if (!walk.ok) return null;
  const { lamps, inputs, groups, programs, sites } = walk.places;
  const firstRecord = groups[0] ?? programs[0]?.at ?? bytes.length;
  // Byte 1 counts the programs; everything before the groups counts as it stands.
  const head = [bytes[0] ?? 0, ...bytes.subarray(2, firstRecord)];
  // A group's first six bytes are its cycle and its limits.
  const grouped = groups.flatMap((at) => [...bytes.subarray(at + 6, at + GROUP_BYTES)]);
  const run = sites.map((site) => {
    const program = programs[site.program];
    return [...siteBytes(bytes, site), ...(program ? programBytes(bytes, program) : [])];
  });
  return [[lamps.length, inputs.length, groups.length], head, grouped, ...run].map((part) => part.join(',')).join(';');
}

/** Start row, what it does at night, group and inputs. */
function siteBytes(bytes: Uint8Array, { at, inputsAt, dialsAt }: SitePlace): number[] {
  return [bytes[at + 1] ?? 0, ...bytes.subarray(at + 4, at + SITE_HEAD_BYTES), ...bytes.subarray(inputsAt, dialsAt)];
}

function programBytes(bytes: Uint8Array, { at, length, dialsAt, dials }: ProgramPlace): number[] {
  return [...bytes.subarray(at, dialsAt), ...bytes.subarray(dialsAt + LIMIT_BYTES * dials, at + length)];
}
