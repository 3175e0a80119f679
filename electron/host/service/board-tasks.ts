/** The long tasks of a board: send, keep, put back. One at a time. */
import { ask } from '../../../shared/link/requests.ts';
import { imageCrc } from '../../../shared/table/shape.ts';
import { writeChanges } from '../../../shared/workbench/changes.ts';
import type { BoardState, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { isBlank } from '../book/board-book.ts';
import { fine } from '../result.ts';
import type { BoardSession } from '../session.ts';
import { type UploadError, upload } from '../upload.ts';
import type { BoardUnit } from './board-unit.ts';
import { requestProblem } from './failures.ts';
import { newIdentity } from './firmware-task.ts';
import { compareImages, dialsOf } from './images.ts';
import { changeList, dialChanges, hex } from './sentences.ts';
import { logged } from './tuning.ts';

type TaskName = NonNullable<BoardState['task']>['name'];

/** Why a task cannot begin; else the session to do it with. */
export function begin(unit: BoardUnit): Outcome<BoardSession> {
  const { session } = unit;
  if (!session) return { ok: false, problem: unit.absence };
  if (unit.task || unit.job) return problem('boardBusy', unit.link.where);
  return fine(session);
}

/** What a failed task leaves: the board state carries it, and the log has it. */
export function failedWith(unit: BoardUnit, error: UploadError, refusedAs: 'refused' | 'uploadRefused' = 'refused') {
  // A loss has been told and logged where it was noticed.
  const lost = error.kind === 'ended' || unit.session === null ? unit.link.problem : null;
  const found = lost ?? requestProblem(error, unit.link.where, refusedAs);
  unit.task = null;
  if (!lost) {
    if (error.kind !== 'cancelled') unit.notice = found;
    unit.log(error.kind === 'cancelled' ? 'upload' : 'problem', found.what, refusalData(error));
  }
  unit.tellState();
  return { ok: false, problem: found } as const;
}

function refusalData(error: UploadError): Record<string, number | null> {
  return error.kind === 'refused' ? { code: error.code, place: error.place } : {};
}

export function keptData({ known }: BoardUnit): Record<string, string | number | null> {
  return { keeps: known.keeps, crc: known.kept ? hex(imageCrc(known.kept)) : null };
}

export function start(unit: BoardUnit, name: TaskName, total: number): void {
  unit.notice = null;
  unit.setTask({ name, done: 0, total });
}

/** The times that another table brought, for walking back; nothing where the two are of different layouts. */
function changesBetween(
  { plan }: BoardUnit,
  before: Uint8Array | null | undefined,
  after: Uint8Array | null | undefined,
): { readonly changes?: string } {
  if (!before || !after || compareImages(before, after).dials === null) return {};
  const changes = logged(plan, dialChanges(dialsOf(before), dialsOf(after)));
  return changes.length === 0 ? {} : { changes: writeChanges(changes) };
}

export class BoardTasks {
  private readonly unit: BoardUnit;
  private sending: AbortController | null = null;
  /** What the board kept in this session before it kept something else, so that it can keep that again. */
  readonly earlier: Uint8Array[] = [];

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  /** Sends the board's part of the open layout and runs it. It is kept only by `keep`. */
  async send(title: string): Promise<Outcome<BoardState>> {
    const { unit } = this;
    const begun = begin(unit);
    if (!begun.ok) return begun;
    const { image, problem: unfit } = unit.plan;
    if (!image) return unfit ? { ok: false, problem: unfit } : problem('layoutWrong', unit.link.where);
    unit.hooks.memory.sending(unit.remembered());
    start(unit, 'send', image.bytes.length);
    const before = unit.known.running;
    this.sending = new AbortController();
    const sent = await upload(begun.value, image.bytes, {
      onProgress: (done, total) => unit.setTask({ name: 'send', done, total }),
      signal: this.sending.signal,
    });
    this.sending = null;
    if (!sent.ok) return failedWith(unit, sent.error, 'uploadRefused');
    unit.known.running = image.bytes;
    // The first layout makes a board ours: from then on it is known again wherever it is plugged in.
    if (isBlank(unit.link.who?.identity ?? '')) await unit.nameBoard(begun.value, newIdentity());
    await this.verify(begun.value, 'run');
    unit.task = null;
    unit.log('upload', `Sent ${title} to ${unit.plan.name}; it runs and is not kept yet.`, {
      ...changesBetween(unit, before, image.bytes),
      bytes: image.bytes.length,
      shape: hex(image.shape),
      crc: hex(image.crc),
    });
    await unit.snapshot();
    return fine(unit.state());
  }

  /** Takes effect at the next part; the board drops what it has got. */
  cancelSend(): void {
    this.sending?.abort();
  }

  async keep(): Promise<Outcome<CallResults['keep']>> {
    const { unit } = this;
    const begun = begin(unit);
    if (!begun.ok) return begun;
    start(unit, 'keep', 1);
    const before = unit.known.kept;
    const failure = await this.keepRunning(begun.value);
    if (failure) return failure;
    unit.task = null;
    unit.log('keep', this.keptText(before), keptData(unit));
    await unit.snapshot();
    return fine({ keeps: unit.known.keeps });
  }

  /** Sends a table that this board kept once and keeps it; `text` is the line of the log. */
  async sendKept(image: Uint8Array, text: string): Promise<Outcome<BoardState>> {
    const { unit } = this;
    const begun = begin(unit);
    if (!begun.ok) return begun;
    unit.hooks.memory.sending(unit.remembered());
    start(unit, 'putBack', image.length);
    const before = unit.known.running;
    const onProgress = (done: number, total: number) => unit.setTask({ name: 'putBack', done, total });
    const sent = await upload(begun.value, image, { onProgress });
    if (!sent.ok) return failedWith(unit, sent.error, 'uploadRefused');
    unit.known.running = image;
    await this.verify(begun.value, 'run');
    const failure = await this.keepRunning(begun.value);
    if (failure) return failure;
    unit.task = null;
    unit.log('putBack', text, { ...keptData(unit), ...changesBetween(unit, before, image) });
    await unit.snapshot();
    return fine(unit.state());
  }

  /** Null when what runs is kept, has been read back, and is copied here. `image`: what runs at this moment. */
  async keepRunning(
    session: BoardSession,
    image: Uint8Array | null | undefined = this.unit.known.running,
  ): Promise<ReturnType<typeof failedWith> | null> {
    const { unit } = this;
    if (unit.known.kept) this.earlier.push(unit.known.kept);
    const kept = await session.request(ask.keep());
    if (!kept.ok) return failedWith(unit, kept.error);
    // The answer to a repeat carries no number.
    const state = kept.value === null ? await session.request(ask.state()) : null;
    unit.known.keeps = kept.value ?? (state?.ok ? state.value.keeps : unit.known.keeps + 1);
    unit.known.kept = image;
    await this.verify(session, 'kept');
    unit.remember();
    return null;
  }

  async putBack(): Promise<Outcome<BoardState>> {
    const { unit } = this;
    const begun = begin(unit);
    if (!begun.ok) return begun;
    start(unit, 'putBack', 1);
    const back = await begun.value.request(ask.back());
    if (!back.ok) return failedWith(unit, back.error);
    const before = unit.known.running;
    unit.known.running = unit.known.kept;
    await this.verify(begun.value, 'run');
    unit.task = null;
    unit.log('putBack', this.putBackText(before), changesBetween(unit, before, unit.known.running));
    await unit.snapshot();
    return fine(unit.state());
  }

  /** The board's own sum decides; where it is not the expected one, the image is read. */
  private async verify(session: BoardSession, which: 'run' | 'kept'): Promise<void> {
    const { unit } = this;
    const expected = which === 'run' ? unit.known.running : unit.known.kept;
    const sum = await session.request(ask.sum(which));
    const agrees = sum.ok && expected && sum.value.length === expected.length && sum.value.crc === imageCrc(expected);
    if (!agrees && session === unit.session) await unit.readImages(session);
  }

  private keptText(before: Uint8Array | null | undefined): string {
    const { unit } = this;
    const on = `Kept on ${unit.plan.name}`;
    if (!unit.known.kept || !unit.isOpenLayout) return `${on}: the table that runs.`;
    return this.changedText(on, before, unit.known.kept, 'the whole layout');
  }

  private putBackText(before: Uint8Array | null | undefined): string {
    const { unit } = this;
    return this.changedText(`Put back on ${unit.plan.name}`, before, unit.known.running, 'the kept table');
  }

  /** The dials that differ, or `whole` where the images are not of one shape. */
  private changedText(
    on: string,
    before: Uint8Array | null | undefined,
    after: Uint8Array | null | undefined,
    whole: string,
  ): string {
    if (!before || !after || compareImages(before, after).dials === null) return `${on}: ${whole}.`;
    const changes = dialChanges(dialsOf(before), dialsOf(after));
    return changes.length === 0 ? `${on}; nothing had changed.` : `${on}: ${changeList(this.unit.plan, changes)}.`;
  }
}
