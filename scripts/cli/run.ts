/**
 * `amberwick run FILE --hours H`: the layout through the whole real path, as fast
 * as the computer can: compiled, sent over the serial protocol to the shipped
 * firmware in the emulator, run, and every lamp edge held against the ideal.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import { requestProblem } from '../../electron/host/service/failures.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { type Rehearsal, rehearse } from '../../electron/host/virtual/rehearsal.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { chooseBoard, loadGood } from './load.ts';
import { type Console, columns, type Report } from './output.ts';
import { VcdWriter } from './vcd.ts';

export interface RunOptions {
  readonly hours: string;
  readonly vcd?: string;
  readonly board?: string;
}

/** An edge further than this from its ideal moment is a failure, microseconds. */
const ALLOWED_US = 1000;
const CHUNK = 1 << 16;

export async function run(file: string, options: RunOptions, io: Console): Promise<Report> {
  const hours = Number(options.hours);
  if (!(hours > 0 && hours <= 10_000)) {
    const words = { what: `"${options.hours}" is no number of hours.`, why: 'Between 0 and 10,000 can be run.' };
    return { exit: 2, problem: { code: 'misread', ...words, next: 'Write for example --hours 0.5.' } };
  }
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const chosen = chooseBoard(loaded.value, options.board);
  if (!chosen.ok) return chosen.report;
  const { table, image, name } = chosen.value;
  const shipped = loadImage(table.chip);
  if (image === null) return { exit: 1, findings: loaded.value.findings };
  if (!shipped.ok) return { exit: 1, problem: describeProblem('virtualFailed', { board: name, cause: shipped.error }) };

  const vcd = options.vcd === undefined ? null : openVcd(options.vcd);
  if (typeof vcd === 'string') {
    const words = { what: `${options.vcd} could not be written.`, why: 'The folder may be missing or protected.' };
    return { exit: 1, problem: { code: 'notWritten', ...words, next: 'Choose another place.', detail: vcd } };
  }
  const writer = vcd ? new VcdWriter(chosen.value, vcd.write) : null;
  const ms = Math.round(hours * 3_600_000);
  const began = performance.now();
  const result = await rehearse({
    flash: shipped.flash,
    table,
    image,
    ms,
    onEdge: ({ lamp, lit, cycles }) => writer?.edge(lamp, lit, cycles),
    onProgress: (done) => io.progress(done, ms),
  });
  if (result.ok) writer?.end(result.rehearsal.cycles);
  vcd?.close();
  if (!result.ok) return { exit: 1, problem: requestProblem(result.error, { board: name }, 'uploadRefused') };
  const speed = ms / (performance.now() - began);
  return { ...summary(result.rehearsal, hours, speed), findings: loaded.value.findings };
}

function summary(done: Rehearsal, hours: number, speed: number): Report {
  const isRight = done.wrong === 0 && done.conflicts === 0 && done.worst <= ALLOWED_US;
  return {
    exit: isRight ? 0 : 1,
    data: { hours, ...done, speed: Math.round(speed) },
    text: columns([
      ['board time', `${hours} h, ${speed.toFixed(0)} times real time`],
      ['lamp edges', String(done.edges)],
      ['not as planned', done.firstWrong === null ? '0' : `${done.wrong}, first: ${done.firstWrong}`],
      ['farthest from plan', `${done.worst.toFixed(1)} microseconds`],
      ['drift', `${done.drift.toFixed(1)} microseconds`],
      ['conflicts seen', String(done.conflicts)],
    ]),
  };
}

/** Collects text and writes it in large pieces; the error of the system where the file cannot be made. */
function openVcd(file: string): { write(text: string): void; close(): void } | string {
  let handle: number;
  try {
    handle = openSync(file, 'w');
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  let pending = '';
  const flush = () => {
    writeSync(handle, pending);
    pending = '';
  };
  return {
    write: (text) => {
      pending += text;
      if (pending.length > CHUNK) flush();
    },
    close: () => {
      flush();
      closeSync(handle);
    },
  };
}
