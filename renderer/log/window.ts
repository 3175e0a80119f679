/** The part of a long story that is drawn. */
import type { Beat, Chapter } from '../../shared/workbench/story/types.ts';

/** Beats that are drawn at once; more would make every change slow. */
export const MOST_DRAWN = 200;
/** Beats that stay in sight when somebody goes on to older or newer ones. */
const OVERLAP = 20;

/** First beat that is drawn, counted over all chapters; null: the end, going along with what happens. */
export type Top = number | null;

export function countOf(chapters: readonly Chapter[]): number {
  return chapters.reduce((sum, { beats }) => sum + beats.length, 0);
}

export function firstOf(top: Top, count: number): number {
  const last = Math.max(0, count - MOST_DRAWN);
  return top === null ? last : Math.min(Math.max(0, top), last);
}

export function older(top: Top, count: number): Top {
  return Math.max(0, firstOf(top, count) - MOST_DRAWN + OVERLAP);
}

export function newer(top: Top, count: number): Top {
  const next = firstOf(top, count) + MOST_DRAWN - OVERLAP;
  return next >= count - MOST_DRAWN ? null : next;
}

/** Where a chapter begins, as a top. */
export function topOf(chapters: readonly Chapter[], key: number): number {
  let count = 0;
  for (const chapter of chapters) {
    if (chapter.key === key) return count;
    count += chapter.beats.length;
  }
  return count;
}

export interface Part {
  readonly chapter: Chapter;
  readonly beats: readonly Beat[];
}

/** Chapters with the beats that are drawn; those without any are left out. */
export function partsFrom(chapters: readonly Chapter[], first: number): Part[] {
  const parts: Part[] = [];
  let at = 0;
  for (const chapter of chapters) {
    const beats = chapter.beats.slice(Math.max(0, first - at), Math.max(0, first + MOST_DRAWN - at));
    if (beats.length > 0) parts.push({ chapter, beats });
    at += chapter.beats.length;
    if (at >= first + MOST_DRAWN) break;
  }
  return parts;
}
