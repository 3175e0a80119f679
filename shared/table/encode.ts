/** Phase tables to board image bytes; the byte layout stands in firmware/PROTOCOL.md, chapter 2. */
import type { Finding } from '../findings/finding.ts';
import { hasErrors } from '../findings/finding.ts';
import { checkTable } from './check.ts';
import {
  AT_NIGHT,
  CAPACITY,
  COND,
  IMAGE_FORMAT,
  LAMP_STATE,
  LAMP_TYPE,
  NO_DIAL,
  NO_GROUP,
  NONE,
  OP,
} from './format.ts';
import type {
  BoardTable,
  Condition,
  Group,
  InputPin,
  LampOutput,
  LampState,
  Program,
  Row,
  SiteBinding,
} from './model.ts';
import { problem } from './problems.ts';
import {
  aspectBytes,
  CHAIN_BYTES,
  GROUP_BYTES,
  HEADER_BYTES,
  INPUT_BYTES,
  LAMP_BYTES,
  maskOf,
  programBytes,
  SITE_HEAD_BYTES,
} from './rows.ts';
import { encodeTime } from './time.ts';

/** Bytes that one part of the image takes. */
export interface BudgetPart {
  readonly part: string;
  readonly bytes: number;
}

/** What each part takes, in the order of the image. */
export function imageBudget(table: BoardTable): BudgetPart[] {
  const sites = table.sites.reduce(
    (sum, site) => sum + SITE_HEAD_BYTES + site.inputs.length + 2 * site.dials.length,
    0,
  );
  return [
    { part: 'header', bytes: HEADER_BYTES },
    { part: 'chain', bytes: table.chain ? CHAIN_BYTES : 0 },
    { part: 'lamps', bytes: LAMP_BYTES * table.lamps.length },
    { part: 'inputs', bytes: INPUT_BYTES * table.inputs.length },
    { part: 'groups', bytes: GROUP_BYTES * table.groups.length },
    { part: 'programs', bytes: table.programs.reduce((sum, program) => sum + programBytes(program), 0) },
    { part: 'sites', bytes: sites },
  ];
}

/**
 * Makes the image of a table. `bytes` is null when a finding is an error.
 * `free` is what is left of the chip's slot, bytes; below zero when too large.
 */
export function encodeTable(table: BoardTable): {
  bytes: Uint8Array | null;
  findings: Finding[];
  budget: BudgetPart[];
  free: number;
} {
  const findings = checkTable(table);
  const budget = imageBudget(table);
  const length = budget.reduce((sum, part) => sum + part.bytes, 0);
  const slot = CAPACITY[table.chip].image;
  const free = slot - length;
  if (free < 0) {
    const most = budget.reduce((a, b) => (b.bytes > a.bytes ? b : a));
    findings.push(
      problem(
        'tooLong',
        '',
        `The board image needs ${length} bytes, ${-free} more than the ${slot} of this board (${most.part}: ${most.bytes}).`,
      ),
    );
  }
  if (hasErrors(findings)) return { bytes: null, findings, budget, free };
  return { bytes: Uint8Array.from(imageBytes(table)), findings, budget, free };
}

function imageBytes(table: BoardTable): number[] {
  const { chain } = table;
  return [
    IMAGE_FORMAT,
    table.programs.length,
    table.sites.length,
    table.lamps.length,
    table.inputs.length,
    table.groups.length,
    chain?.chips ?? 0,
    table.sweep / 10,
    table.nightLevel,
    table.nightInput ?? NONE,
    table.offInput ?? NONE,
    0,
    ...(chain ? [chain.data, chain.clock, chain.latch, chain.enable ?? NONE] : []),
    ...table.lamps.flatMap(lampBytes),
    ...table.inputs.flatMap(inputBytes),
    ...table.groups.flatMap(groupBytes),
    ...table.programs.flatMap(encodeProgram),
    ...table.sites.flatMap(siteBytes),
  ];
}

function lampBytes(lamp: LampOutput): number[] {
  return [lamp.output, (lamp.activeLow ? 0x80 : 0) | (LAMP_TYPE[lamp.type] << 5) | lamp.brightness];
}

function inputBytes(input: InputPin): number[] {
  return [input.pin, (input.activeLow ? 1 : 0) | (input.pullUp ? 2 : 0), input.debounce, input.indicator ?? NONE];
}

function groupBytes(group: Group): number[] {
  const { value, min, max } = group.cycle;
  return [...timeBytes(value), ...timeBytes(min), ...timeBytes(max), group.syncOut ?? NONE, group.syncIn ?? NONE];
}

function siteBytes(site: SiteBinding): number[] {
  return [
    site.program,
    site.start,
    ...timeBytes(site.offset),
    AT_NIGHT[site.atNight] | ((site.group ?? NO_GROUP) << 4),
    ...site.inputs.map((input) => input ?? NONE),
    ...site.dials.flatMap(timeBytes),
  ];
}

function encodeProgram(program: Program): number[] {
  const length = programBytes(program);
  const flash = program.flash ?? { on: NO_DIAL, off: NO_DIAL };
  return [
    length & 0xff,
    length >> 8,
    program.lamps.length,
    program.dials.length,
    program.inputs.length,
    program.rows.length,
    (flash.on << 4) | flash.off,
    program.conflicts.length,
    ...program.dials.flatMap((dial) => [...timeBytes(dial.min), ...timeBytes(dial.max)]),
    ...packStates(program.fault),
    ...packStates(program.safe),
    ...program.conflicts.flat(),
    ...program.rows.flatMap(encodeRow),
  ];
}

function encodeRow(row: Row): number[] {
  const first = (dial: number) => OP[row.op] | (dial << 4);
  switch (row.op) {
    case 'after':
      return [first(row.dial), ...packStates(row.states)];
    case 'until':
      return [first(row.min), ...conditionBytes(row.when), ...packStates(row.states)];
    case 'untilMax': {
      const [kind, mask] = conditionBytes(row.when);
      return [first(row.min), kind | (row.max << 4), mask, ...packStates(row.states)];
    }
    case 'extend': {
      const dials = row.gap | (row.max << 4);
      return [first(row.min), dials, maskOf(row.detectors), maskOf(row.opposing), ...packStates(row.states)];
    }
    case 'random':
      return [first(row.low), row.high, ...packStates(row.states)];
    case 'sync':
      return [first(row.min), row.offset, ...packStates(row.states)];
    case 'jump':
      return [first(0), ...conditionBytes(row.when), row.to];
    case 'clear':
    case 'latch':
      return [first(0), maskOf(row.inputs)];
  }
}

function conditionBytes(when: Condition): [kind: number, mask: number] {
  return [COND[when.kind], when.kind === 'chance' ? when.outOf256 : maskOf(when.inputs)];
}

/** Two bits a lamp, lamp 0 in bits 1-0 of the first byte. */
export function packStates(states: readonly LampState[]): number[] {
  const bytes = new Array<number>(aspectBytes(states.length)).fill(0);
  for (const [lamp, state] of states.entries()) {
    bytes[lamp >> 2] = (bytes[lamp >> 2] ?? 0) | (LAMP_STATE[state] << (2 * (lamp & 3)));
  }
  return bytes;
}

/** Low byte first. The check has made sure that a word for the time exists. */
function timeBytes(ms: number): [number, number] {
  const word = encodeTime(ms) ?? 0;
  return [word & 0xff, word >> 8];
}
