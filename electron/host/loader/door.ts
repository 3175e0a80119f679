/** Finds the boot loader behind a port, and comes back to it: opening at its rate, reset, sign-on, the reset button. */
import { failed, fine, type Outcome } from '../result.ts';
import type { OpenProblem } from '../service/ports.ts';
import type { LoaderClient } from './client.ts';
import { LOADERS } from './kinds.ts';
import type { LoaderLine } from './line.ts';
import type { LoaderKind, WriteOptions } from './types.ts';

export type DoorError =
  | { readonly kind: 'open'; readonly error: OpenProblem }
  | { readonly kind: 'noLoader'; readonly pulsed: boolean; readonly heardBytes: boolean }
  | { readonly kind: 'ended'; readonly cause: string }
  | { readonly kind: 'cancelled' };

/** Resets for each loader that fits the chip; a pulse may be lost on its way. */
const ROUNDS = 3;
/** Sign-ons after a reset: about 1 s, the patience of a loader. */
const TRIES = 7;
/**
 * While the person presses, one loader at a time is asked for: most loaders start the program at once on bytes of
 * another protocol or rate. Six turns of about 3 s.
 */
const PRESS_TURNS = 6;
const PRESS_TRIES = 20;

type Reset = 'pulse' | 'person';

export class Door {
  private readonly options: Pick<WriteOptions, 'open' | 'clock' | 'signal' | 'onStage'>;
  private line: LoaderLine | null = null;
  private found: { readonly kind: LoaderKind; readonly line: LoaderLine; readonly client: LoaderClient } | null = null;
  private pulsed = false;
  private heardBytes = false;

  constructor(options: Door['options']) {
    this.options = options;
  }

  get isCancelled(): boolean {
    return this.options.signal?.aborted ?? false;
  }

  /** `own` are asked in turns, then `others` once; where none answers, the person is asked to press the button. */
  async enter(own: readonly LoaderKind[], others: readonly LoaderKind[]): Promise<Outcome<LoaderKind, DoorError>> {
    this.options.onStage?.('reset', 0, 0);
    for (const kind of [...repeated(own, ROUNDS), ...others]) {
      const met = await this.attempt(kind, 'pulse');
      if (met.ok || met.error.kind !== 'noLoader') return met;
    }
    this.options.onStage?.('press', 0, 0);
    for (let turn = 0; turn < PRESS_TURNS; turn++) {
      const met = await this.attempt(own[turn % own.length] ?? 'v1-115200', 'person');
      if (met.ok || met.error.kind !== 'noLoader') return met;
    }
    return this.nobody();
  }

  /** Resets the board once more and signs on to the same loader. */
  async again(): Promise<Outcome<LoaderKind, DoorError>> {
    const kind = this.found?.kind ?? 'v1-115200';
    this.options.onStage?.('reset', 0, 0);
    if (this.isCancelled) return failed({ kind: 'cancelled' });
    // A pulse that a capacitor swallows looks like any other.
    await this.found?.client.forget();
    if (this.line && (await this.reset(this.line))) {
      const met = await this.signOn(kind, this.line, TRIES);
      if (met.ok || met.error.kind !== 'noLoader') return met;
    }
    return this.enter([kind], []);
  }

  /** The loader that answered last. */
  get client(): LoaderClient {
    if (!this.found) throw new Error('no loader has answered yet');
    return this.found.client;
  }

  /** Sees that the program starts. */
  async leave(): Promise<void> {
    const left = (await this.found?.client.leave()) ?? true;
    if (!left && this.line) await this.reset(this.line);
  }

  async close(): Promise<void> {
    const { line } = this;
    this.line = null;
    await line?.close();
  }

  private async attempt(kind: LoaderKind, by: Reset): Promise<Outcome<LoaderKind, DoorError>> {
    await this.close();
    if (this.isCancelled) return failed({ kind: 'cancelled' });
    const opened = await this.options.open(LOADERS[kind].baud);
    if (!opened.ok) return failed({ kind: 'open', error: opened.error });
    const { line } = opened;
    this.line = line;
    line.onData((bytes) => {
      if (bytes.length > 0) this.heardBytes = true;
    });
    // Where there is no reset line, opening may have reset the board.
    if (by === 'pulse') await this.reset(line);
    return this.signOn(kind, line, by === 'pulse' ? TRIES : PRESS_TRIES);
  }

  private async reset(line: LoaderLine): Promise<boolean> {
    const isPulsed = await line.pulseReset();
    this.pulsed ||= isPulsed;
    return isPulsed;
  }

  private async signOn(kind: LoaderKind, line: LoaderLine, tries: number): Promise<Outcome<LoaderKind, DoorError>> {
    // One client for a line: each listens to it for good.
    const client = this.found?.line === line ? this.found.client : LOADERS[kind].client(line, this.options.clock);
    const met = await client.signOn({ tries, stop: () => this.isCancelled });
    if (met.ok && this.isCancelled) await client.leave();
    if (this.isCancelled) return failed({ kind: 'cancelled' });
    if (met.ok) {
      this.found = { kind, line, client };
      return fine(kind);
    }
    return met.error.kind === 'ended' ? failed(met.error) : this.nobody();
  }

  private nobody(): { readonly ok: false; readonly error: DoorError } {
    return failed({ kind: 'noLoader', pulsed: this.pulsed, heardBytes: this.heardBytes });
  }
}

function repeated<T>(items: readonly T[], times: number): T[] {
  return Array.from({ length: times }, () => items).flat();
}
