/**
 * Writing the firmware of a board, and putting a new board in the place of a
 * broken one. What the board keeps is copied before and put back after, where
 * the new firmware does not find it any more.
 */
import { randomBytes } from 'node:crypto';
import { ask, type Who } from '../../../shared/link/requests.ts';
import type { BoardState, Outcome, Problem, TaskStage } from '../../../shared/workbench/contract.ts';
import { describeProblem, problem } from '../../../shared/workbench/problems.ts';
import { isBlank } from '../book/board-book.ts';
import type { WriteFirmware, Written } from '../loader/types.ts';
import { LISTEN_FIRST_MS } from '../patience.ts';
import { type Rescued, rescue, restore } from '../rescue.ts';
import { fine } from '../result.ts';
import { BoardSession } from '../session.ts';
import { upload } from '../upload.ts';
import { portName } from './board-link.ts';
import type { BoardUnit } from './board-unit.ts';
import { chipName, requestProblem } from './failures.ts';
import { firmwareText, type KeptFate, replacedText } from './firmware-sentences.ts';
import { sameImage } from './images.ts';
import { writeProblem } from './loader-failures.ts';
import { tapLoader } from './loader-frames.ts';
import type { SerialPorts } from './ports.ts';
import { BARE } from './shipped.ts';
import { virtualOwner } from './virtual-boards.ts';

type Done = Outcome<BoardState>;
type Failed = { readonly ok: false; readonly problem: Problem };

/** After one of these the board runs what it ran. */
const UNTOUCHED = [
  ...['firmwareCancelled', 'firmwareNotBegun', 'firmwareMissing', 'firmwareTooLarge'],
  ...['noLoader', 'loaderChip', 'loaderUnknownChip', 'portBusy', 'portDenied', 'portDeniedYet'],
];

export class FirmwareTask {
  private readonly unit: BoardUnit;
  private readonly serial: SerialPorts;
  private readonly writeFirmware: WriteFirmware;
  private stopping: AbortController | null = null;
  private running: Promise<unknown> = Promise.resolve();
  /** The board at the port was connected when the job began. */
  private wasReady = false;
  /** The board at the port as it was met in this job, before the link let go of it. */
  private met: Who | null = null;

  constructor(unit: BoardUnit, serial: SerialPorts, writeFirmware: WriteFirmware) {
    this.unit = unit;
    this.serial = serial;
    this.writeFirmware = writeFirmware;
  }

  write(port: string): Promise<Done> {
    return this.job('firmware', port, async (signal) => {
      const { unit } = this;
      const before = await this.copyFirst(port);
      if (!before.ok) return before;
      const written = await this.put(port, signal);
      if (!written.ok) return written;
      const unmet = await this.meet(port, written.value, before.value?.identity);
      if (unmet) return this.fail(unmet);
      const restored = await this.putBack(before.value);
      if (!restored.ok) return restored;
      unit.log('firmware', firmwareText(unit.plan, unit.link.who, written.value, restored.value), {
        port,
        chip: written.value.silicon.name,
        loader: written.value.loader,
        bytes: written.value.bytes,
      });
      return fine(unit.state());
    });
  }

  replace(port: string): Promise<Done> {
    return this.job('replace', port, async (signal) => {
      const { unit } = this;
      this.stage('greet');
      let refused = await unit.connect(port);
      let written: Written | null = null;
      const { match } = unit.state().firmware;
      if (match === 'none' || match === 'older') {
        const put = await this.put(port, signal);
        if (!put.ok) return put;
        written = put.value;
        refused = await this.meet(port, written);
      }
      if (refused) return this.fail(refused);
      return this.furnish(written);
    });
  }

  /** Takes effect at the next page; once the board is written and checked it is no longer heeded. */
  cancel(): void {
    this.stopping?.abort();
  }

  /** Cancels, and waits until the port is closed. */
  async end(): Promise<void> {
    this.cancel();
    await this.running;
  }

  private async job(name: 'firmware' | 'replace', port: string, work: (signal: AbortSignal) => Promise<Done>) {
    const { unit } = this;
    const where = { ...unit.link.where, port: portName(port) };
    if (unit.task || unit.job) return problem('boardBusy', where);
    if (virtualOwner(port) !== null || !this.serial.openLoader) return problem('notReal', where);
    this.stopping = new AbortController();
    this.wasReady = unit.session !== null && unit.link.port === port;
    this.met = null;
    unit.beginJob(name, port);
    const doing = work(this.stopping.signal).finally(() => {
      this.stopping = null;
      unit.endJob();
      unit.hooks.portsMoved();
    });
    this.running = doing.catch(() => {});
    const outcome = await doing;
    return outcome.ok ? fine(unit.state()) : outcome;
  }

  private stage(stage: TaskStage, done = 0, total = 0, cancellable = false): void {
    this.unit.jobStage({ stage, done, total, cancellable });
  }

  /** What the board at the port keeps and is called, as far as it can say so. The port is free afterwards. */
  private async copyFirst(port: string): Promise<Outcome<Rescued | null>> {
    const { unit } = this;
    this.stage('read');
    const { problem: known } = unit.link;
    if (unit.link.port === port) this.met = unit.link.who;
    if (unit.link.port === port && known && BARE.includes(known.code)) {
      await unit.release(port);
      return fine(null);
    }
    if (unit.session && unit.link.port === port) {
      const copied = await rescue(unit.session);
      await unit.release(port);
      return copied.ok ? fine(copied.value) : fine(null);
    }
    await unit.release(port);
    const opened = await unit.open(port);
    // What keeps the port from being opened keeps the boot loader away, too; its own words come from there.
    if (!opened.ok) return fine(null);
    const session = new BoardSession(opened.stream, { clock: unit.hooks.clock });
    const greeted = await session.greet(unit.plan.chip === 'atmega2560' ? LISTEN_FIRST_MS : 0);
    if (greeted.ok) this.met = greeted.value;
    const copied = greeted.ok ? await rescue(session) : null;
    await session.close();
    return fine(copied?.ok ? copied.value : null);
  }

  private async put(port: string, signal: AbortSignal): Promise<Outcome<Written>> {
    const { unit, serial } = this;
    const { memory, images, clock } = unit.hooks;
    const likely = memory.loader(unit.link.who ?? this.met, unit.plan);
    await unit.release(port);
    const written = await this.writeFirmware({
      open: async (baud) => {
        const opened = await serial.openLoader?.(port, baud);
        if (!opened) return { ok: false, error: { kind: 'failed', detail: 'no boot loader can be reached here' } };
        return opened.ok ? { ...opened, line: tapLoader(unit.frames, opened.line, baud) } : opened;
      },
      clock,
      chip: unit.plan.chip,
      image: (chip) => images(chip)?.flash ?? null,
      ...(likely ? { likely } : {}),
      onStage: (stage, done, total) => this.stage(stage, done, total, true),
      signal,
    });
    if (written.ok) return fine(written.value);
    const where = { ...unit.link.where, port: portName(port) };
    return this.fail(writeProblem(written.error, where, chipName(unit.plan.chip)));
  }

  /** Greets the board with its new firmware and notes what it is; null when that went well. */
  private async meet(port: string, written: Written, identity = ''): Promise<Problem | null> {
    const { unit } = this;
    this.stage('greet');
    const refused = await unit.connect(port);
    const { session } = unit;
    if (refused || !session) return refused ?? unit.absence;
    if (isBlank(unit.link.who?.identity ?? '')) {
      await unit.nameBoard(session, isBlank(identity) ? newIdentity() : identity);
    }
    unit.hooks.memory.wrote(unit.remembered(), written);
    return null;
  }

  /** Puts back what the board had kept and has lost by the update. */
  private async putBack(before: Rescued | null): Promise<Outcome<KeptFate>> {
    const { unit } = this;
    const { session } = unit;
    if (!session) return this.fail(unit.absence);
    if (!before?.kept) return fine(unit.known.kept ? 'stayed' : 'none');
    const restored = await restore(session, before, (done, total) => this.stage('restore', done, total));
    if (!restored.ok) {
      const { what } = requestProblem(restored.error, unit.link.where, 'uploadRefused');
      return this.fail(describeProblem('restoreFailed', { ...unit.link.where, cause: what }));
    }
    if (restored.value !== 'putBack') return fine('stayed');
    await unit.readAll(session);
    return fine('restored');
  }

  /** Name and table of a board that takes another one's place. */
  private async furnish(written: Written | null): Promise<Done> {
    const { unit } = this;
    const { session } = unit;
    if (!session) return this.fail(unit.absence);
    const own = unit.remembered();
    const copy = unit.hooks.memory.copies(unit.plan).find(({ key }) => key !== own.who.identity) ?? null;
    const image = copy?.kept?.image ?? unit.plan.image?.bytes ?? null;
    if (!image) return this.fail(unit.plan.problem ?? describeProblem('layoutWrong', unit.link.where));
    const failure = await this.load(session, image);
    if (failure) return this.fail(failure);
    await unit.nameBoard(session, isBlank(own.who.identity) ? newIdentity() : own.who.identity);
    unit.log('firmware', replacedText(unit.plan, portName(unit.link.port ?? ''), written, copy?.kept?.at ?? null), {
      port: unit.link.port,
      copy: copy?.key ?? null,
      bytes: image.length,
    });
    await unit.snapshot();
    return fine(unit.state());
  }

  /** Runs and keeps an image; null when that is done. */
  private async load(session: BoardSession, image: Uint8Array): Promise<Problem | null> {
    const { unit } = this;
    this.stage('restore', 0, image.length);
    unit.hooks.memory.sending(unit.remembered());
    const sent = await upload(session, image, { onProgress: (done, total) => this.stage('restore', done, total) });
    if (!sent.ok) return requestProblem(sent.error, unit.link.where, 'uploadRefused');
    const kept = await session.request(ask.keep());
    if (!kept.ok) return requestProblem(kept.error, unit.link.where);
    await unit.readAll(session);
    return sameImage(image, unit.known.kept) ? null : describeProblem('readBackFailed', unit.link.where);
  }

  /** The board state carries it and the log has it. A board that was connected and is as it was is connected again. */
  private async fail(found: Problem): Promise<Failed> {
    const { unit } = this;
    unit.trouble(found);
    const { port } = unit.link;
    if (this.wasReady && UNTOUCHED.includes(found.code) && port !== null) await unit.connect(port);
    else if (unit.link.state === 'off') unit.link.problem = found;
    if (unit.session) unit.notice = found;
    unit.tellState();
    return { ok: false, problem: found };
  }
}

/** Random, so that no two boards are the same; never blank. */
export function newIdentity(): string {
  for (;;) {
    const identity = randomBytes(4).toString('hex').toUpperCase();
    if (!isBlank(identity)) return identity;
  }
}
