/** Sends a board image: begin, parts, start. The running table goes on until the last step. */
import { ask } from '../../shared/link/requests.ts';
import { LINK } from '../../shared/link/vocabulary.ts';
import { imageCrc, imageShape } from '../../shared/table/shape.ts';
import { persist } from './persist.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

/** Parts are missing, or the board was restarted or alone in between: the upload begins again. */
const MENDED_BY_REPEAT: readonly string[] = ['notWhole', 'noUpload'];
/** So often in all. Bytes that are staged already are not written again, so a repeat is quick. */
const ROUNDS = 3;

export interface UploadOptions {
  /** Bytes acknowledged by the board so far. */
  readonly onProgress?: (done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

export type UploadError = HostError | { readonly kind: 'cancelled' };

type Sent = Outcome<number | null, UploadError>;

/**
 * Runs the image on the board; the answer is its table hash (null when the bytes are no image that has one). The store
 * still holds the old table until `keep`.
 */
export async function upload(session: BoardSession, image: Uint8Array, options: UploadOptions = {}): Promise<Sent> {
  for (let round = 1; ; round++) {
    const { outcome, mended } = await sendOnce(session, image, options);
    if (!mended || round === ROUNDS) return outcome;
  }
}

interface Round {
  readonly outcome: Sent;
  /** It may come right when all is sent again. */
  readonly mended: boolean;
}

async function sendOnce(session: BoardSession, image: Uint8Array, options: UploadOptions): Promise<Round> {
  const begun = await persist(session, ask.begin(image.length, imageCrc(image)));
  if (!begun.ok) return { outcome: begun, mended: false };
  const staged = await sendParts(session, image, options);
  if (!staged.ok) return { outcome: staged, mended: isMendedByRepeat(staged.error) };
  return start(session, image);
}

/**
 * Believed only where the board names the image. An answer without a hash is that to a repeat, and the board knows a
 * repeat by a CRC of 16 bits, which an earlier request may share; where no answer came, or the upload is gone, an
 * earlier copy may have been heard. Then the board is asked what it runs.
 */
async function start(session: BoardSession, image: Uint8Array): Promise<Round> {
  const started = await session.request(ask.start());
  const shape = imageShape(image);
  if (started.ok && started.value !== null) {
    const isOther = shape !== null && started.value !== shape;
    return { outcome: isOther ? OTHER : started, mended: isOther };
  }
  if (!started.ok && started.error.kind !== 'silent' && !isRefused(started.error, 'noUpload')) {
    return { outcome: started, mended: isMendedByRepeat(started.error) };
  }
  const running = await persist(session, ask.sum('run'));
  if (running.ok && running.value.length === image.length && running.value.crc === imageCrc(image)) {
    return { outcome: fine(shape), mended: false };
  }
  return { outcome: started.ok ? OTHER : started, mended: running.ok || running.error.kind === 'refused' };
}

const OTHER: Sent = failed({ kind: 'misunderstood', what: 'start of another table' });

function isMendedByRepeat(error: UploadError): boolean {
  return isRefused(error, ...MENDED_BY_REPEAT);
}

function isRefused(error: UploadError, ...keys: readonly string[]): boolean {
  return error.kind === 'refused' && keys.includes(error.key);
}

async function sendParts(
  session: BoardSession,
  image: Uint8Array,
  { onProgress, signal }: UploadOptions,
): Promise<Outcome<null, UploadError>> {
  onProgress?.(0, image.length);
  for (let offset = 0; offset < image.length; offset += LINK.partBytes) {
    if (signal?.aborted) {
      await session.request(ask.drop());
      return failed({ kind: 'cancelled' });
    }
    const bytes = image.subarray(offset, offset + LINK.partBytes);
    const staged = await persist(session, ask.part(offset, bytes));
    if (!staged.ok) return staged;
    onProgress?.(offset + bytes.length, image.length);
  }
  return fine(null);
}
