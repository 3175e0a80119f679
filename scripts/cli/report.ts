/** `amberwick report`: a text for asking for help, of this computer and, with `--port`, of the board there. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { systemClock } from '../../electron/host/clock.ts';
import { LISTEN_FIRST_MS } from '../../electron/host/patience.ts';
import { listPorts } from '../../electron/host/ports.ts';
import type { HostError, Outcome } from '../../electron/host/result.ts';
import { greetingProblem, whoProblem } from '../../electron/host/service/failures.ts';
import { FrameRecorder } from '../../electron/host/service/frames.ts';
import { makeReport, type ReportBoard } from '../../electron/host/service/report.ts';
import { firmwareMatch, shippedImages } from '../../electron/host/service/shipped.ts';
import { systemFacts } from '../../electron/host/service/system-facts.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { ask, type ImageSum, type BoardState as ToldState, type Who } from '../../shared/link/requests.ts';
import { FAULTS } from '../../shared/link/vocabulary.ts';
import { CAPACITY, type Chip } from '../../shared/table/format.ts';
import type { BoardState, Problem } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { openStream } from './connect.ts';
import type { Report } from './output.ts';

export interface ReportOptions {
  readonly port?: string;
  readonly data?: string;
  /** File to write instead of printing. */
  readonly output?: string;
}

/** A board that cannot be reached is no failure: that is what such a report is for. */
export async function helpReport(options: ReportOptions): Promise<Report> {
  const recorder = new FrameRecorder(() => new Date());
  const met = options.port === undefined ? null : await meet(options.port, options.data, recorder);
  const found = await listPorts();
  const made = makeReport({
    at: new Date(),
    version: ownVersion(),
    shell: 'command line',
    system: systemFacts(),
    ports: found.map(({ path, label, likely, virtual }) => ({ path, label, likely, virtual, board: null })),
    boards: met === null ? [] : [met],
    log: [],
  });
  const { output } = options;
  if (output === undefined) return { exit: 0, data: made, text: [made.text.trimEnd()] };
  try {
    writeFileSync(output, made.text);
  } catch (error) {
    const words = {
      what: `${output} could not be written.`,
      why: 'The folder may be missing or protected, or the disk full.',
      next: 'Choose another place for the file.',
    };
    const detail = error instanceof Error ? error.message : String(error);
    return { exit: 1, problem: { ...describeProblem('hostFailed', {}), code: 'notWritten', ...words, detail } };
  }
  return { exit: 0, data: { ...made, file: output }, text: [`Wrote ${output}. Read it before you send it.`] };
}

/** Asks the board whatever it answers; the talk is recorded. */
async function meet(port: string, data: string | undefined, recorder: FrameRecorder): Promise<ReportBoard> {
  const opened = await openStream({ port, ...(data === undefined ? {} : { data }) }, null);
  if (!opened.ok) return boardOf(port, recorder, { problem: opened.problem });
  const openedAt = systemClock.now();
  const session = new BoardSession(recorder.tap(opened.stream), { clock: systemClock });
  opened.started();
  try {
    const greeted = await session.greet(LISTEN_FIRST_MS);
    if (!greeted.ok) return boardOf(port, recorder, { problem: greetingProblem(greeted.error, { port }) });
    const who = greeted.value;
    // Of another version as much as it tells; the chip is taken as it is.
    const problem = whoProblem(who, who.chip, { port });
    const told = await session.request(ask.state());
    const running = await session.request(ask.sum('run'));
    const kept = await session.request(ask.sum('kept'));
    return boardOf(port, recorder, {
      ...{ who, problem, running: tableOf(running), kept: tableOf(kept) },
      faults: running.ok ? await faultsOf(session) : [],
      told: told.ok ? told.value : null,
      openingResets: told.ok ? told.value.seconds * 1000 < systemClock.now() - openedAt : null,
    });
  } finally {
    await session.close();
  }
}

/** Without a layout to compare with, only that there is none is known. */
function tableOf(sum: Outcome<ImageSum, HostError>): BoardState['running'] {
  return !sum.ok && sum.error.kind === 'refused' && sum.error.key === 'noTable' ? 'none' : 'unknown';
}

/** Fault codes by site, asked one after the other until there are no more. */
async function faultsOf(session: BoardSession): Promise<number[]> {
  const caps = await session.request(ask.caps());
  const faults: number[] = [];
  for (let site = 0; caps.ok && site < caps.value.sites; site++) {
    const snapshot = await session.request(ask.site(site));
    if (!snapshot.ok) break;
    faults.push(FAULTS.find(({ key }) => key === snapshot.value.fault)?.code ?? 255);
  }
  return faults;
}

interface Met {
  readonly problem: Problem | null;
  readonly who?: Who;
  readonly told?: ToldState | null;
  readonly faults?: readonly number[];
  readonly running?: BoardState['running'];
  readonly kept?: BoardState['kept'];
  readonly openingResets?: boolean | null;
}

function boardOf(port: string, recorder: FrameRecorder, met: Met): ReportBoard {
  const { problem, who = null, told = null } = met;
  const virtual = port.startsWith('virtual');
  const shipped = who && Object.hasOwn(CAPACITY, who.chip) ? shippedImages(who.chip as Chip) : null;
  const state: BoardState = {
    board: 'board',
    port,
    virtual,
    link: who === null ? 'off' : 'ready',
    problem,
    powered: virtual ? true : null,
    speed: virtual ? 1 : null,
    who,
    running: met.running ?? 'unknown',
    kept: met.kept ?? 'unknown',
    runningDials: null,
    keptDials: null,
    unkept: told?.flags.has('unkept') ?? false,
    paused: told?.flags.has('paused') ?? false,
    held: [],
    faults: met.faults ?? [],
    master: told?.master ?? 'run',
    keeps: told?.keeps ?? 0,
    wear: null,
    supplyMillivolts: told?.millivolts ?? null,
    resetCause: told?.cause ?? 'unknown',
    task: null,
    quiet: false,
    firmware: {
      match: firmwareMatch({ who, problem: problem?.code ?? null }, shipped?.version ?? null),
      shipped: shipped?.version ?? null,
    },
    openingResets: met.openingResets ?? null,
    silicon: null,
    copiedAt: null,
    check: null,
    checking: false,
    wiringFaults: null,
    arms: [],
    keptCrc: null,
    needsSending: false,
  };
  return { state, who, told, counts: null, frames: recorder.recent() };
}

function ownVersion(): string {
  const file = fileURLToPath(new URL('../../package.json', import.meta.url));
  return String(JSON.parse(readFileSync(file, 'utf8')).version);
}
