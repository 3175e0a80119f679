/** Reads the running or the kept image back from a board, byte for byte. */
import { ask } from '../../shared/link/requests.ts';
import { CODES } from '../../shared/link/vocabulary.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

const NO_TABLE = CODES.find((code) => code.key === 'noTable')?.code;
/** A dial that is turned while the image is read changes its sum: then it is read once more. */
const ROUNDS = 3;

export interface ReadImage {
  readonly bytes: Uint8Array;
  readonly crc: number;
}

/** Null when the board has no such table. */
export async function readBack(
  session: BoardSession,
  which: 'run' | 'kept',
  onProgress: (done: number, total: number) => void = () => {},
): Promise<Outcome<ReadImage | null, HostError>> {
  for (let round = 1; ; round++) {
    const told = await session.request(ask.sum(which));
    if (!told.ok) return isNoTable(told.error) ? fine(null) : told;
    const { length, crc } = told.value;
    const bytes = new Uint8Array(length);
    let done = 0;
    onProgress(done, length);
    while (done < length) {
      const piece = await session.request(ask.read(which, done));
      if (!piece.ok) return isNoTable(piece.error) ? fine(null) : piece;
      const { offset, bytes: got } = piece.value;
      if (offset !== done || got.length === 0 || done + got.length > length) {
        return failed({ kind: 'misunderstood', what: `read ${which} ${done}` });
      }
      bytes.set(got, done);
      done += got.length;
      onProgress(done, length);
    }
    if (imageCrc(bytes) === crc) return fine({ bytes, crc });
    if (round === ROUNDS) return failed({ kind: 'misunderstood', what: `sum of ${which} differs` });
  }
}

function isNoTable(error: HostError): boolean {
  return error.kind === 'refused' && error.code === NO_TABLE;
}
