/** Reads the running or the kept image back from a board, byte for byte. */
import { ask } from '../../shared/link/requests.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { persist } from './persist.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

/** A dial that is turned, or a table that starts, while the image is read: then it is read once more. */
const ROUNDS = 3;

export interface ReadImage {
  readonly bytes: Uint8Array;
  readonly crc: number;
}

type Read = Outcome<ReadImage | null, HostError>;

/** Null when the board has no such table. */
export async function readBack(
  session: BoardSession,
  which: 'run' | 'kept',
  onProgress: (done: number, total: number) => void = () => {},
): Promise<Read> {
  for (let round = 1; ; round++) {
    const { read, isOther } = await readOnce(session, which, onProgress);
    if (!isOther || round === ROUNDS) return read;
  }
}

interface Round {
  readonly read: Read;
  /** What was read is not of one table. */
  readonly isOther: boolean;
}

async function readOnce(
  session: BoardSession,
  which: 'run' | 'kept',
  onProgress: (done: number, total: number) => void,
): Promise<Round> {
  const told = await persist(session, ask.sum(which));
  if (!told.ok) return refused(told.error);
  const { length, crc } = told.value;
  const bytes = new Uint8Array(length);
  let done = 0;
  onProgress(done, length);
  while (done < length) {
    const piece = await persist(session, ask.read(which, done));
    if (!piece.ok) return refused(piece.error);
    const { offset, bytes: got } = piece.value;
    if (offset !== done || got.length === 0 || done + got.length > length) return other(`read ${which} ${done}`);
    bytes.set(got, done);
    done += got.length;
    onProgress(done, length);
  }
  return imageCrc(bytes) === crc ? { read: fine({ bytes, crc }), isOther: false } : other(`sum of ${which} differs`);
}

const other = (what: string): Round => ({ read: failed({ kind: 'misunderstood', what }), isOther: true });

function refused(error: HostError): Round {
  const key = error.kind === 'refused' ? error.key : null;
  if (key === 'noTable') return { read: fine(null), isOther: false };
  // It is shorter now than its sum has told; or a line was damaged in a way that its CRC cannot see.
  return { read: failed(error), isOther: key === 'noSuchThing' || error.kind === 'misunderstood' };
}
