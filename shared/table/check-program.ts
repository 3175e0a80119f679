/** The rules of a consistent program: its dials, rows and conflict pairs. */
import type { Finding } from '../findings/finding.ts';
import { PROGRAM_LIMITS } from './format.ts';
import type { Condition, DialLimits, LampState, Program, Row } from './model.ts';
import { problem } from './problems.ts';
import { isInterval } from './rows.ts';
import { encodeTime } from './time.ts';

const LEAST_MS = 10;
const LONGEST_FLASH_MS = 30_000;
const LONGEST_GAP_MS = 60_000;

/** Everything wrong with one program; `path` is its place, such as `programs[0]`. */
export function checkProgram(program: Program, path: string): Finding[] {
  return [
    ...checkCounts(program, path),
    ...program.dials.flatMap((dial, index) => dialLimitsProblem(dial, `${path}.dials[${index}]`) ?? []),
    ...checkFlash(program, path),
    ...checkPairs(program, path),
    ...checkStates(program, program.fault, `${path}.fault`),
    ...checkStates(program, program.safe, `${path}.safe`),
    ...program.rows.flatMap((row, index) => checkRow(program, row, `${path}.rows[${index}]`)),
  ];
}

/** The problem of limits that are out of order or cannot be counted, or null. */
export function dialLimitsProblem(dial: DialLimits, path: string): Finding | null {
  if (encodeTime(dial.min) !== null && encodeTime(dial.max) !== null && dial.min <= dial.max) return null;
  return problem('badDial', path, `The limits ${dial.min} to ${dial.max} ms are out of order or cannot be counted.`);
}

function checkCounts(program: Program, path: string): Finding[] {
  const least = { lamps: 1, dials: 0, inputs: 0, rows: 1, conflicts: 0 };
  return (['lamps', 'dials', 'inputs', 'rows', 'conflicts'] as const).flatMap((part) => {
    const count = program[part].length;
    if (count >= least[part] && count <= PROGRAM_LIMITS[part]) return [];
    return [
      problem(
        'badCount',
        `${path}.${part}`,
        `${count} ${part}; a program has ${least[part]} to ${PROGRAM_LIMITS[part]}.`,
      ),
    ];
  });
}

interface DialUse {
  readonly role: string;
  readonly dial: number;
  readonly least?: number;
  readonly most?: number;
}

function checkDialUse(program: Program, use: DialUse, path: string): Finding[] {
  const limits = program.dials[use.dial];
  if (!limits) return [problem('badDial', path, `There is no dial ${use.dial} for the ${use.role}.`)];
  if (use.least !== undefined && limits.min < use.least) {
    return [problem('badDial', path, `${limits.name} times the ${use.role}, so it must not go below ${use.least} ms.`)];
  }
  if (use.most !== undefined && limits.max > use.most) {
    return [problem('badDial', path, `${limits.name} times the ${use.role}, so it must not go above ${use.most} ms.`)];
  }
  return [];
}

function checkFlash(program: Program, path: string): Finding[] {
  if (!program.flash) return [];
  const limits = { least: LEAST_MS, most: LONGEST_FLASH_MS };
  return [
    ...checkDialUse(program, { role: 'lit part of a flash', dial: program.flash.on, ...limits }, `${path}.flash.on`),
    ...checkDialUse(program, { role: 'dark part of a flash', dial: program.flash.off, ...limits }, `${path}.flash.off`),
  ];
}

/** The dials that a row uses, with what each must keep. */
function dialsOf(row: Row): DialUse[] {
  switch (row.op) {
    case 'after':
      return [{ role: 'interval', dial: row.dial, least: LEAST_MS }];
    case 'until':
      return [{ role: 'minimum', dial: row.min }];
    case 'untilMax':
      return [
        { role: 'minimum', dial: row.min },
        { role: 'maximum', dial: row.max },
      ];
    case 'extend':
      return [
        { role: 'minimum', dial: row.min },
        { role: 'gap', dial: row.gap, most: LONGEST_GAP_MS },
        { role: 'maximum', dial: row.max },
      ];
    case 'random':
      return [
        { role: 'shortest time', dial: row.low, least: LEAST_MS },
        { role: 'longest time', dial: row.high },
      ];
    case 'sync':
      return [
        { role: 'minimum', dial: row.min },
        { role: 'offset', dial: row.offset },
      ];
    default:
      return [];
  }
}

function checkRow(program: Program, row: Row, path: string): Finding[] {
  const findings = dialsOf(row).flatMap((use) => checkDialUse(program, use, path));
  if ('when' in row) findings.push(...checkCondition(program, row.when, row.op === 'jump', `${path}.when`));
  if ('inputs' in row) findings.push(...checkMask(program, row.inputs, `${path}.inputs`));
  if (row.op === 'extend') {
    findings.push(...checkMask(program, row.detectors, `${path}.detectors`));
    findings.push(...checkMask(program, row.opposing, `${path}.opposing`));
  }
  if (row.op === 'jump' && program.rows[row.to] === undefined) {
    findings.push(problem('badTarget', `${path}.to`, `There is no row ${row.to} to jump to.`));
  }
  if (isInterval(row)) findings.push(...checkStates(program, row.states, `${path}.states`));
  return findings;
}

function checkCondition(program: Program, when: Condition, inJump: boolean, path: string): Finding[] {
  if (when.kind === 'chance') {
    if (!inJump) return [problem('badRow', path, 'Chance can decide a jump only.')];
    const share = when.outOf256;
    if (Number.isInteger(share) && share >= 0 && share <= 255) return [];
    return [problem('badRow', path, `A chance of ${share} in 256 is not from 0 to 255.`)];
  }
  if (inJump && when.kind === 'changed') return [problem('badRow', path, 'A change can end an interval only.')];
  return checkMask(program, when.inputs, path);
}

function checkMask(program: Program, inputs: readonly number[], path: string): Finding[] {
  const stranger = inputs.find((input) => program.inputs[input] === undefined);
  return stranger === undefined ? [] : [problem('badRow', path, `The program has no input ${stranger}.`)];
}

function checkPairs(program: Program, path: string): Finding[] {
  return program.conflicts.flatMap(([a, b], index) => {
    const known = program.lamps[a] !== undefined && program.lamps[b] !== undefined;
    if (known && a !== b) return [];
    return [problem('conflict', `${path}.conflicts[${index}]`, `${a} and ${b} are not two lamps of the program.`)];
  });
}

function checkStates(program: Program, states: readonly LampState[], path: string): Finding[] {
  if (states.length !== program.lamps.length) {
    return [problem('badLength', path, `${states.length} lamp states for ${program.lamps.length} lamps.`)];
  }
  const isShown = (lamp: number) => (states[lamp] ?? 'dark') !== 'dark';
  const pair = program.conflicts.find(([a, b]) => a !== b && isShown(a) && isShown(b));
  if (!pair) return [];
  const [a, b] = pair;
  return [problem('conflict', path, `${program.lamps[a]} and ${program.lamps[b]} conflict, but both are shown.`)];
}
