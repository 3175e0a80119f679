/** What a board keeps and is called, read before its firmware is written, so that it can be put back. */
import { ask, type Who } from '../../shared/link/requests.ts';
import { readBack } from './readback.ts';
import { fine, type HostError, type Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

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
