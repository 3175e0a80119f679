/** The rules of a consistent table (firmware/PROTOCOL.md, chapter 2), as findings with places in the table. */
import type { Finding } from '../findings/finding.ts';
import { checkProgram, dialLimitsProblem } from './check-program.ts';
import { CAPACITY, CHAIN_BASE, NO_GROUP } from './format.ts';
import type { BoardTable, Group, SiteBinding } from './model.ts';
import { type ProblemCode, problem } from './problems.ts';
import { encodeTime } from './time.ts';

/** Pins 0 and 1 are the serial line. */
const FIRST_PIN = 2;
const LEAST_CYCLE_MS = 1000;

/** All that is wrong with a table; empty when it is consistent. Paths such as `sites[1].dials[0]`. */
export function checkTable(table: BoardTable): Finding[] {
  return [
    ...checkCounts(table),
    ...checkWiring(table),
    ...checkReferences(table),
    ...table.groups.flatMap((group, index) => checkGroup(table, group, `groups[${index}]`)),
    ...table.programs.flatMap((program, index) => checkProgram(program, `programs[${index}]`)),
    ...table.sites.flatMap((site, index) => checkSite(table, site, `sites[${index}]`)),
  ];
}

function isIndex(value: number, count: number): boolean {
  return Number.isInteger(value) && value >= 0 && value < count;
}

/** Lamps that belong to sites; those from here on are indicators and sync outputs. */
export function siteLamps(table: BoardTable): number {
  return table.sites.reduce((sum, site) => sum + (table.programs[site.program]?.lamps.length ?? 0), 0);
}

function checkCounts(table: BoardTable): Finding[] {
  const room = CAPACITY[table.chip];
  const findings: Finding[] = [];
  for (const part of ['programs', 'sites', 'lamps', 'inputs', 'groups'] as const) {
    const count = table[part].length;
    if (count > room[part]) {
      findings.push(problem('badCount', part, `${count} ${part}, but this board has room for ${room[part]}.`));
    }
  }
  const chips = table.chain?.chips;
  if (chips !== undefined && !(Number.isInteger(chips) && chips >= 1 && chips <= room.chips)) {
    findings.push(problem('badCount', 'chain.chips', `${chips} chips, but a chain has 1 to ${room.chips}.`));
  }
  const used = siteLamps(table);
  if (used > table.lamps.length) {
    findings.push(
      problem('badCount', 'lamps', `The sites have ${used} lamps, but the table has ${table.lamps.length}.`),
    );
  }
  if (!(isIndex(table.sweep, 2551) && table.sweep % 10 === 0)) {
    findings.push(
      problem('badTime', 'sweep', `A sweep of ${table.sweep} ms a lamp is not a multiple of 10 up to 2,550.`),
    );
  }
  if (!isIndex(table.nightLevel, 256)) {
    findings.push(problem('badOutput', 'nightLevel', `The night level ${table.nightLevel} is not from 0 to 255.`));
  }
  return findings;
}

/** Pins and chain bits: they exist and none is used twice. */
function checkWiring(table: BoardTable): Finding[] {
  const findings: Finding[] = [];
  const users = new Map<number, string>();
  const { pins } = CAPACITY[table.chip];
  const bits = 8 * (table.chain?.chips ?? 0);
  const use = (code: ProblemCode, number: number, path: string) => {
    const isPin = Number.isInteger(number) && number >= FIRST_PIN && number <= pins;
    const isBit = code === 'badOutput' && !path.startsWith('chain') && isIndex(number - CHAIN_BASE, bits);
    const name = number >= CHAIN_BASE ? `chain bit ${number - CHAIN_BASE}` : `pin ${number}`;
    const other = users.get(number);
    if (!isPin && !isBit) findings.push(problem(code, path, `This board has no ${name} to use.`));
    else if (other !== undefined) findings.push(problem('pinTwice', path, `${name} is used by ${other} already.`));
    else users.set(number, path);
  };
  if (table.chain) {
    const { data, clock, latch, enable } = table.chain;
    use('badOutput', data, 'chain.data');
    use('badOutput', clock, 'chain.clock');
    use('badOutput', latch, 'chain.latch');
    if (enable !== null) use('badOutput', enable, 'chain.enable');
  }
  for (const [index, lamp] of table.lamps.entries()) {
    use('badOutput', lamp.output, `lamps[${index}].output`);
    if (!isIndex(lamp.brightness, 32)) {
      findings.push(
        problem('badOutput', `lamps[${index}].brightness`, `Brightness ${lamp.brightness} is not from 0 to 31.`),
      );
    }
  }
  for (const [index, input] of table.inputs.entries()) {
    use('badInput', input.pin, `inputs[${index}].pin`);
    if (!isIndex(input.debounce, 256)) {
      findings.push(
        problem('badInput', `inputs[${index}].debounce`, `A debounce of ${input.debounce} ms is not from 0 to 255.`),
      );
    }
  }
  return findings;
}

/** Numbers of inputs and lamps outside the sites. */
function checkReferences(table: BoardTable): Finding[] {
  const findings: Finding[] = [];
  for (const key of ['nightInput', 'offInput'] as const) {
    const input = table[key];
    if (input !== null && !isIndex(input, table.inputs.length)) {
      findings.push(problem('badInput', key, `There is no input ${input}.`));
    }
  }
  for (const [index, { indicator }] of table.inputs.entries()) {
    findings.push(...checkSpare(table, indicator, `inputs[${index}].indicator`));
  }
  return findings;
}

function checkSpare(table: BoardTable, lamp: number | null, path: string): Finding[] {
  if (lamp === null || (isIndex(lamp, table.lamps.length) && lamp >= siteLamps(table))) return [];
  return [problem('badOutput', path, `Lamp ${lamp} is not one that the sites leave over.`)];
}

function checkGroup(table: BoardTable, group: Group, path: string): Finding[] {
  const { value, min, max } = group.cycle;
  const findings = checkSpare(table, group.syncOut, `${path}.syncOut`);
  if (group.syncIn !== null && !isIndex(group.syncIn, table.inputs.length)) {
    findings.push(problem('badInput', `${path}.syncIn`, `There is no input ${group.syncIn}.`));
  }
  const limits = dialLimitsProblem(group.cycle, `${path}.cycle`);
  if (limits) findings.push(limits);
  else if (min < LEAST_CYCLE_MS) {
    findings.push(problem('badDial', `${path}.cycle.min`, `A cycle of ${min} ms is under one second.`));
  }
  if (!limits && !isWithin(value, min, max)) {
    findings.push(problem('badTime', `${path}.cycle.value`, `A cycle of ${value} ms is outside ${min} to ${max} ms.`));
  }
  return findings;
}

function isWithin(value: number, min: number, max: number): boolean {
  return encodeTime(value) !== null && value >= min && value <= max;
}

function checkSite(table: BoardTable, site: SiteBinding, path: string): Finding[] {
  const findings: Finding[] = [];
  const program = table.programs[site.program];
  if (!program) return [problem('badSite', `${path}.program`, `There is no program ${site.program}.`)];
  if (site.group !== null && !(isIndex(site.group, table.groups.length) && site.group < NO_GROUP)) {
    findings.push(problem('badSite', `${path}.group`, `There is no group ${site.group}.`));
  }
  if (site.group === null && program.rows.some((row) => row.op === 'sync')) {
    findings.push(
      problem('badSite', `${path}.group`, 'The program waits for a common cycle, but the site has no group.'),
    );
  }
  if (!isIndex(site.start, program.rows.length)) {
    findings.push(problem('badTarget', `${path}.start`, `The program has no row ${site.start}.`));
  }
  if (encodeTime(site.offset) === null) {
    findings.push(problem('badTime', `${path}.offset`, `The board cannot count an offset of ${site.offset} ms.`));
  }
  if (site.inputs.length !== program.inputs.length) {
    const what = `The program has ${program.inputs.length} inputs, the site binds ${site.inputs.length}.`;
    findings.push(problem('badLength', `${path}.inputs`, what));
  }
  for (const [index, input] of site.inputs.entries()) {
    if (input !== null && !isIndex(input, table.inputs.length)) {
      findings.push(problem('badInput', `${path}.inputs[${index}]`, `There is no input ${input}.`));
    }
  }
  if (site.dials.length !== program.dials.length) {
    const what = `The program has ${program.dials.length} dials, the site sets ${site.dials.length}.`;
    findings.push(problem('badLength', `${path}.dials`, what));
  }
  for (const [index, value] of site.dials.entries()) {
    const limits = program.dials[index];
    // Limits that are out of order have a finding of their own.
    if (limits && limits.min <= limits.max && !isWithin(value, limits.min, limits.max)) {
      const what = `${limits.name} of ${value} ms is outside ${limits.min} to ${limits.max} ms or cannot be counted.`;
      findings.push(problem('badTime', `${path}.dials[${index}]`, what));
    }
  }
  return findings;
}
