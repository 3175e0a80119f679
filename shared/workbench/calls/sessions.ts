/** Calls about the log of this session and of earlier ones. */
import { z } from 'zod';
import type { LogEntry } from '../contract.ts';

export const SESSION_CALLS = {
  /** Sessions on this computer, the newest first; this one is not among them. */
  listSessions: z.strictObject({}),
  readSession: z.strictObject({ name: z.string().min(1).max(120) }),
  /** A photo, noted by where it is; it is not copied. Without a path the system's dialog asks, where the shell has one. */
  attachPhoto: z.strictObject({
    path: z.string().min(1).max(1000).nullable(),
    caption: z.string().max(2000),
  }),
} as const;

export interface EarlierSession {
  /** Names it in `readSession`: its file, without a folder. */
  readonly name: string;
  /** Begin and end, ISO 8601. */
  readonly from: string;
  readonly to: string;
  readonly entries: number;
  /** Layouts that were open. */
  readonly layouts: readonly string[];
}

export interface SessionResults {
  listSessions: readonly EarlierSession[];
  readSession: { readonly name: string; readonly entries: readonly LogEntry[] };
  attachPhoto: null;
}
