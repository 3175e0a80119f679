/** What a board keeps and is called, read before its firmware is written, so that it can be put back. */
import { ask, type Who } from '../../shared/link/requests.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { isBlank } from './book/board-book.ts';
import { readBack } from './readback.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';
import { type UploadError, upload } from './upload.ts';

export interface Rescued {
  /** Eight hexadecimal digits, all zero where blank. */
  readonly identity: string;
  readonly name: string;
  readonly firmware: string;
  /** The kept image; null where it keeps none. */
  readonly kept: Uint8Array | null;
}

/** The board must have been greeted. Changes nothing on it. */
export async function rescue(session: BoardSession): Promise<Outcome<Rescued, HostError>> {
  const met = await session.request(ask.who());
  if (!met.ok) return met;
  const kept = await readBack(session, 'kept');
  if (!kept.ok) return kept;
  return fine({ ...named(met.value), kept: kept.value?.bytes ?? null });
}

function named({ identity, name, firmware }: Who): Omit<Rescued, 'kept'> {
  return { identity, name, firmware };
}

/** `none`: it kept nothing before. */
export type Restored = 'none' | 'survived' | 'putBack';

/** Sees that a greeted board is called and keeps what it did before; the table that was put back runs from then on. */
export async function restore(
  session: BoardSession,
  { identity, name, kept }: Rescued,
  onProgress: (done: number, total: number) => void = () => {},
): Promise<Outcome<Restored, UploadError>> {
  const met = await session.request(ask.who());
  if (!met.ok) return met;
  const wasNamed = !isBlank(identity);
  if (wasNamed && (met.value.identity !== identity || met.value.name !== name)) {
    const labelled = await session.request(ask.label(identity, name));
    if (!labelled.ok) return labelled;
  }
  if (kept === null) return fine('none');
  const survived = await keeps(session, kept);
  if (!survived.ok || survived.value) return survived.ok ? fine('survived') : survived;
  const sent = await upload(session, kept, { onProgress });
  if (!sent.ok) return sent;
  const done = await session.request(ask.keep());
  if (!done.ok) return done;
  const isKept = await keeps(session, kept);
  if (!isKept.ok) return isKept;
  return isKept.value ? fine('putBack') : failed({ kind: 'misunderstood', what: 'sum of kept differs after keep' });
}

async function keeps(session: BoardSession, image: Uint8Array): Promise<Outcome<boolean, HostError>> {
  const told = await session.request(ask.sum('kept'));
  if (told.ok) return fine(told.value.length === image.length && told.value.crc === imageCrc(image));
  return told.error.kind === 'refused' && told.error.key === 'noTable' ? fine(false) : told;
}
