/** Calls about the log of this session and of earlier ones. */
import { z } from 'zod';
import type { LogEntry } from '../contract.ts';
import { GROUPS, type Group } from '../story/groups.ts';

/** A file in the folder of sessions; no path. */
const name = z.string().regex(/^[^./\\][^/\\]{0,110}\.jsonl$/);
/** The last session that is known; null: from the newest on. */
const before = name.nullable();
const most = z.int().min(1).max(100);

export const SESSION_CALLS = {
  /** Sessions on this computer in parts, the newest first; this one is not among them. */
  listSessions: z.strictObject({ before, most }),
  readSession: z.strictObject({ name }),
  /** Its file as it stands on the disk, for saving elsewhere. */
  sessionText: z.strictObject({ name }),
  /** Looks through a part of the earlier sessions; all words have to be in an entry, which is about one of the groups, if any. */
  searchSessions: z.strictObject({
    words: z.string().max(200),
    groups: z.array(z.enum(GROUPS.map(({ id }) => id) as [Group, ...Group[]])).max(GROUPS.length),
    before,
    most,
  }),
  /** Other words for a remark or a photo of this session, by its number; without words it is taken back. The log keeps both. */
  correctRemark: z.strictObject({ number: z.int().min(1), text: z.string().max(2000) }),
  /** A photo, noted by where it is; it is not read or copied. Without a path the system's dialog asks, where the shell has one. */
  attachPhoto: z.strictObject({
    path: z.string().min(1).max(1000).nullable(),
    caption: z.string().max(2000),
  }),
} as const;

export interface EarlierSession {
  /** Names it in `readSession`: its file, without a folder. */
  readonly name: string;
  /** Of its first and last entry, ISO 8601; empty where none can be read. */
  readonly from: string;
  readonly to: string;
  readonly entries: number;
  /** Layouts that were open. */
  readonly layouts: readonly string[];
  /** It ended by being closed. */
  readonly ended: boolean;
  /** Lines that cannot be read. */
  readonly unreadable: number;
  /** Why nothing of the file can be read; one sentence. */
  readonly problem: string | null;
}

/** An earlier session in which something was found. */
export interface SessionFind {
  readonly name: string;
  readonly from: string;
  readonly count: number;
  /** The first of them. */
  readonly entries: readonly LogEntry[];
}

export interface SessionResults {
  listSessions: {
    readonly sessions: readonly EarlierSession[];
    /** Of all sessions. */
    readonly total: number;
    /** There are older ones. */
    readonly rest: boolean;
  };
  /** `unreadable`: numbers of lines that are no entry, from 1. */
  readSession: {
    readonly name: string;
    readonly entries: readonly LogEntry[];
    readonly unreadable: readonly number[];
  };
  sessionText: { readonly name: string; readonly text: string };
  searchSessions: {
    readonly found: readonly SessionFind[];
    readonly looked: number;
    /** Files that could not be read. */
    readonly unreadable: readonly string[];
    /** `before` of the next part; null: there is none. */
    readonly next: string | null;
  };
  correctRemark: null;
  attachPhoto: null;
}
