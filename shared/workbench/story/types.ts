/** What a session log looks like as a story: chapters of beats, each beat one sentence about one or more entries. */
import type { LogEntry, LogKind } from '../contract.ts';
import type { Group } from './groups.ts';
import type { Wall } from './moment.ts';

export interface Beat {
  /** Number of its first entry. */
  readonly key: number;
  /** Of the first and of the last entry. */
  readonly from: Wall;
  readonly to: Wall;
  readonly kind: LogKind;
  readonly groups: readonly Group[];
  readonly board: string | null;
  /** Name of the site that it is about. */
  readonly site: string | null;
  /** One sentence in the past tense; notes may have several lines. */
  readonly text: string;
  /** How long after what, or how it ended: a sentence without its stop, or empty. */
  readonly more: string;
  /** The first on a new day within its chapter. */
  readonly isNewDay: boolean;
  /** What was folded into it, in order; one where nothing was. */
  readonly entries: readonly LogEntry[];
}

export interface Chapter {
  /** Number of its first entry. */
  readonly key: number;
  readonly title: string;
  readonly from: Wall;
  readonly to: Wall;
  /** The first of the story, or of a new day. */
  readonly isNewDay: boolean;
  readonly beats: readonly Beat[];
}
