/** Sends a board image: begin, parts, start. The running table goes on until the last step. */
import { ask } from '../../shared/link/requests.ts';
import { CODES, LINK } from '../../shared/link/vocabulary.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

const codeOf = (key: string): number | undefined => CODES.find((code) => code.key === key)?.code;
/** Parts are missing, or the board was restarted or alone in between: the upload begins again. */
const MENDED_BY_REPEAT = [codeOf('notWhole'), codeOf('noUpload')];
/** So often in all. Bytes that are staged already are not written again, so a repeat is quick. */
const ROUNDS = 3;

export interface UploadOptions {
  /** Bytes acknowledged by the board so far. */
  readonly onProgress?: (done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

export type UploadError = HostError | { readonly kind: 'cancelled' };

/**
 * Runs the image on the board; the answer is its table hash, or null when only
 * the repeat was answered. The store still holds the old table until `keep`.
 */
export async function upload(
  session: BoardSession,
  image: Uint8Array,
  options: UploadOptions = {},
): Promise<Outcome<number | null, UploadError>> {
  for (let round = 1; ; round++) {
    const outcome = await sendOnce(session, image, options);
    const isMended = !outcome.ok && outcome.error.kind === 'refused' && MENDED_BY_REPEAT.includes(outcome.error.code);
    if (!isMended || round === ROUNDS) return outcome;
  }
}

async function sendOnce(
  session: BoardSession,
  image: Uint8Array,
  options: UploadOptions,
): Promise<Outcome<number | null, UploadError>> {
  const begun = await session.request(ask.begin(image.length, imageCrc(image)));
  if (!begun.ok) return begun;
  const staged = await sendParts(session, image, options);
  if (!staged.ok) return staged;
  return session.request(ask.start());
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
    const staged = await session.request(ask.part(offset, bytes));
    if (!staged.ok) return staged;
    onProgress?.(offset + bytes.length, image.length);
  }
  return fine(null);
}
