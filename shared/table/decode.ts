/** Board image bytes back to phase tables. Names are not in the image; numbered ones stand in for them. */
import type { Finding } from '../findings/finding.ts';
import { checkTable } from './check.ts';
import { decodeProgram } from './decode-program.ts';
import type { Chip } from './format.ts';
import { AT_NIGHT, CAPACITY, LAMP_TYPE, NO_GROUP, NONE } from './format.ts';
import type { AtNight, BoardTable, Chain, Group, InputPin, LampOutput, LampType, SiteBinding } from './model.ts';
import { problem } from './problems.ts';
import { timeAt } from './time.ts';
import { type SitePlace, walkImage } from './walk.ts';

/**
 * Reads any bytes; never throws. `table` is null when they are no image at all;
 * when they are one that breaks rules, the findings say which.
 */
export function decodeTable(bytes: Uint8Array, chip: Chip): { table: BoardTable | null; findings: Finding[] } {
  const slot = CAPACITY[chip].image;
  if (bytes.length > slot) {
    const what = `The image has ${bytes.length} bytes, ${bytes.length - slot} more than the ${slot} of this board.`;
    return { table: null, findings: [problem('tooLong', '', what)] };
  }
  const walk = walkImage(bytes);
  if (!walk.ok) {
    const { code, at, what } = walk.error;
    return { table: null, findings: [problem(code, `image[${at}]`, what)] };
  }
  const { places } = walk;
  const byte = (at: number) => bytes[at] ?? 0;
  const programs = [];
  for (const [index, place] of places.programs.entries()) {
    const decoded = decodeProgram(bytes, place, `program ${index + 1}`);
    if ('severity' in decoded) return { table: null, findings: [decoded] };
    programs.push(decoded);
  }
  const table: BoardTable = {
    chip,
    sweep: byte(7) * 10,
    nightLevel: byte(8),
    nightInput: orNull(byte(9)),
    offInput: orNull(byte(10)),
    chain: places.chips > 0 ? decodeChain(bytes, places.chips, places.chainAt) : null,
    lamps: places.lamps.map((at, index) => decodeLamp(byte(at), byte(at + 1), `lamp ${index + 1}`)),
    inputs: places.inputs.map((at, index) => decodeInput(bytes, at, `input ${index + 1}`)),
    groups: places.groups.map((at, index) => decodeGroup(bytes, at, `group ${index + 1}`)),
    programs,
    sites: places.sites.map((place, index) => decodeSite(bytes, place, `site ${index + 1}`)),
  };
  return { table, findings: checkTable(table) };
}

function orNull(byte: number): number | null {
  return byte === NONE ? null : byte;
}

function decodeChain(bytes: Uint8Array, chips: number, at: number): Chain {
  const [data = 0, clock = 0, latch = 0, enable = NONE] = bytes.subarray(at, at + 4);
  return { chips, data, clock, latch, enable: orNull(enable) };
}

function decodeLamp(output: number, attributes: number, name: string): LampOutput {
  const types = Object.keys(LAMP_TYPE) as LampType[];
  const type = types.find((key) => LAMP_TYPE[key] === ((attributes >> 5) & 3)) ?? 'led';
  return { name, output, activeLow: attributes >= 0x80, type, brightness: attributes & 31 };
}

function decodeInput(bytes: Uint8Array, at: number, name: string): InputPin {
  const [pin = 0, flags = 0, debounce = 0, indicator = NONE] = bytes.subarray(at, at + 4);
  return {
    name,
    pin,
    activeLow: (flags & 1) !== 0,
    pullUp: (flags & 2) !== 0,
    debounce,
    indicator: orNull(indicator),
  };
}

function decodeGroup(bytes: Uint8Array, at: number, name: string): Group {
  const [syncOut = NONE, syncIn = NONE] = bytes.subarray(at + 6, at + 8);
  const cycle = { name: 'cycle', value: timeAt(bytes, at), min: timeAt(bytes, at + 2), max: timeAt(bytes, at + 4) };
  return { name, cycle, syncOut: orNull(syncOut), syncIn: orNull(syncIn) };
}

function decodeSite(bytes: Uint8Array, place: SitePlace, name: string): SiteBinding {
  const flags = bytes[place.at + 4] ?? 0;
  const atNight = (Object.keys(AT_NIGHT) as AtNight[]).find((key) => AT_NIGHT[key] === (flags & 3)) ?? 'run';
  const group = flags >> 4;
  return {
    name,
    program: place.program,
    start: bytes[place.at + 1] ?? 0,
    offset: timeAt(bytes, place.at + 2),
    atNight,
    group: group === NO_GROUP ? null : group,
    inputs: [...bytes.subarray(place.inputsAt, place.dialsAt)].map(orNull),
    dials: Array.from({ length: place.dials }, (_, dial) => timeAt(bytes, place.dialsAt + 2 * dial)),
  };
}
