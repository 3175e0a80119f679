/**
 * Gets an image into the flash so that a half-written program never runs. The
 * parking page goes to page 0 first, then all other pages; they are read back
 * and compared; only then page 0 gets what belongs there. At every moment the
 * chip holds the old program whole, or is parked, or holds the new one whole.
 * Cut off in the few milliseconds in which a loader erases and writes page 0
 * itself, the chip runs into page 1; our images stop it there (PROTOCOL.md,
 * chapter 5). Only behind a program of somebody else that is left open.
 */
import { failed, fine, type Outcome } from '../result.ts';
import type { Trouble } from './client.ts';
import type { Door, DoorError } from './door.ts';
import { firstDifference, type Pages } from './pages.ts';
import type { LeftAs, WriteError, WriteOptions } from './types.ts';

/** Resets in the middle of one transfer before it is given up. */
const RESETS = 5;

type PageError =
  | { readonly kind: 'trouble'; readonly trouble: Trouble; readonly at: number }
  | { readonly kind: 'differs'; readonly at: number }
  /** The way back into the loader is lost. */
  | { readonly kind: 'door'; readonly error: DoorError }
  | { readonly kind: 'cancelled' };

type Done = Outcome<null, PageError>;

export class Transfer {
  private readonly door: Door;
  private readonly pages: Pages;
  private readonly onStage: NonNullable<WriteOptions['onStage']>;
  private leftAs: LeftAs = 'untouched';
  /** Pages that are in the flash, from page 0 (parked) on. */
  private written = 0;
  /** All have been read back, page 0 as parked. */
  private isProved = false;
  /** Page 0 may be the real one by now. */
  private isCompleting = false;
  private readonly total: number;

  constructor(door: Door, pages: Pages, onStage: NonNullable<WriteOptions['onStage']> = () => {}) {
    this.door = door;
    this.pages = pages;
    this.onStage = onStage;
    this.total = (pages.pages.length + 1) * pages.size;
  }

  /** From a loader that has just been signed on to. */
  async run(): Promise<Outcome<null, WriteError>> {
    const differed = new Set<number>();
    for (let resets = 0; ; resets++) {
      const done = await this.pass();
      if (done.ok) return done;
      const { error } = done;
      // The same byte twice is the memory; a byte once may have been the line.
      const isOver = error.kind === 'differs' ? differed.has(error.at) : isFinal(error);
      if (isOver || resets === RESETS) return failed(this.explain(error));
      if (error.kind === 'differs') differed.add(error.at);
      const back = await this.door.again();
      if (!back.ok) return failed(doorError(back.error, this.leftAs));
    }
  }

  private async pass(): Promise<Done> {
    const { size, pages } = this.pages;
    // A loader that erases by its own counter begins anew with each reset.
    if (this.written < pages.length && !this.door.client.canProgram(this.written * size)) this.written = 0;
    if (!this.isProved) {
      const filled = await this.fill();
      if (!filled.ok) return filled;
      const proved = await this.prove();
      if (!proved.ok) return proved;
      this.isProved = true;
    }
    const completed = await this.complete();
    // A frame of version 1 whose address was hurt has gone to another page: they are all looked at again.
    if (!completed.ok) this.isProved = false;
    return completed;
  }

  private async fill(): Promise<Done> {
    const { size, pages } = this.pages;
    for (; this.written < pages.length; this.written++) {
      if (this.door.isCancelled) return failed({ kind: 'cancelled' });
      const at = this.written * size;
      this.onStage('write', at, this.total);
      this.leftAs = 'empty';
      const put = await this.put(at, this.expected(this.written));
      if (!put.ok) return put;
      // The other pages are safe to write only while page 0 is known to be parked.
      const parked = this.written === 0 ? await this.compare(0, this.pages.parking) : fine(null);
      if (!parked.ok) return parked;
    }
    this.onStage('write', pages.length * size, this.total);
    return fine(null);
  }

  private async prove(): Promise<Done> {
    const { size, pages } = this.pages;
    // Page 0 is written once more in any case, and nothing else is before it.
    for (let index = this.isCompleting ? 1 : 0; index < pages.length; index++) {
      if (this.door.isCancelled) return failed({ kind: 'cancelled' });
      this.onStage('verify', index * size, this.total);
      const same = await this.compare(index * size, this.expected(index));
      if (same.ok) continue;
      if (same.error.kind === 'differs') this.written = this.isCompleting ? 0 : index;
      if (same.error.kind === 'differs') this.isCompleting = false;
      return same;
    }
    this.onStage('verify', pages.length * size, this.total);
    return fine(null);
  }

  /** The real page 0, after which the new program is whole. */
  private async complete(): Promise<Done> {
    const { size, pages } = this.pages;
    const [first] = pages;
    if (!first) return fine(null);
    if (this.door.isCancelled) return failed({ kind: 'cancelled' });
    const back = this.door.client.canProgram(0) ? fine(null) : await this.door.again();
    if (!back.ok) return failed({ kind: 'door', error: back.error });
    this.isCompleting = true;
    this.onStage('write', pages.length * size, this.total);
    const put = await this.put(0, first, true);
    if (!put.ok) return put;
    this.onStage('write', this.total, this.total);
    // With the page after it, which a loader that counts otherwise than we think would have erased.
    for (const [index, page] of pages.slice(0, 2).entries()) {
      const same = await this.compare(index * size, page);
      if (!same.ok) return same;
    }
    this.onStage('verify', this.total, this.total);
    return fine(null);
  }

  private expected(index: number): Uint8Array {
    return (index === 0 ? null : this.pages.pages[index]) ?? this.pages.parking;
  }

  private async put(at: number, page: Uint8Array, once = false): Promise<Done> {
    const done = await this.door.client.programPage(at, page, once);
    return done.ok ? done : failed({ kind: 'trouble', trouble: done.error, at });
  }

  /** Reads a difference twice: it may have come about on the way. */
  private async compare(at: number, wanted: Uint8Array): Promise<Done> {
    let different = 0;
    for (let reading = 0; reading < 2; reading++) {
      const read = await this.door.client.readPage(at, wanted.length);
      if (!read.ok) return failed({ kind: 'trouble', trouble: read.error, at });
      const found = firstDifference(read.value, wanted);
      if (found === null) return fine(null);
      different = found;
    }
    return failed({ kind: 'differs', at: at + different });
  }

  private explain(error: PageError): WriteError {
    const { leftAs } = this;
    if (error.kind === 'cancelled') return { kind: 'cancelled', leftAs };
    if (error.kind === 'door') return doorError(error.error, leftAs);
    if (error.kind === 'differs') return { kind: 'differs', at: error.at, leftAs };
    return troubleError(error.trouble, error.at, leftAs);
  }
}

function isFinal(error: PageError): boolean {
  if (error.kind === 'trouble') return error.trouble.kind === 'ended';
  return error.kind !== 'differs';
}

export function troubleError(trouble: Trouble, at: number, leftAs: LeftAs): WriteError {
  switch (trouble.kind) {
    case 'silent':
      return { kind: 'silent', leftAs };
    case 'ended':
      return { kind: 'ended', cause: trouble.cause, leftAs };
    default:
      return { kind: 'refused', at, leftAs, detail: trouble.detail };
  }
}

/** The way back into the loader is lost in the middle of the work. */
function doorError(error: DoorError, leftAs: LeftAs): WriteError {
  switch (error.kind) {
    case 'open':
      return { kind: 'ended', cause: error.error.detail, leftAs };
    case 'noLoader':
      return { kind: 'silent', leftAs };
    default:
      return { ...error, leftAs };
  }
}
