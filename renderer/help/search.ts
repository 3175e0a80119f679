/** Looking for words in the help. */
import { wordsOf } from '../finder/match.ts';
import type { Block, Chapter } from './block.ts';

/** A chapter with those of its blocks, and rows of blocks, in which every word is found. */
export function searchHelp(query: string, chapters: readonly Chapter[]): Chapter[] {
  const wanted = wordsOf(query);
  if (wanted.length === 0) return [];
  return chapters.flatMap((chapter) => {
    const isWhole = holds(`${chapter.title} ${chapter.words.join(' ')}`, wanted);
    const blocks = chapter.blocks.flatMap((block) => partOf(block, wanted));
    // A chapter that is about it is shown even where no line has the words.
    if (blocks.length === 0) return isWhole ? [{ ...chapter, blocks: chapter.blocks.slice(0, 1) }] : [];
    return [{ ...chapter, blocks }];
  });
}

export function countOf(chapters: readonly Chapter[]): number {
  const sizeOf = (block: Block): number =>
    'items' in block ? block.items.length : 'rows' in block ? block.rows.length : 1;
  return chapters.reduce((sum, { blocks }) => sum + blocks.reduce((more, block) => more + sizeOf(block), 0), 0);
}

function partOf(block: Block, wanted: readonly string[]): Block[] {
  switch (block.is) {
    case 'heading':
    case 'words':
      return holds(block.text, wanted) ? [{ is: 'words', text: block.text }] : [];
    case 'list':
    case 'steps': {
      const items = block.items.filter((item) => holds(item, wanted));
      return items.length > 0 ? [{ is: 'list', items }] : [];
    }
    case 'terms': {
      const rows = block.rows.filter((row) => holds(row.join(' '), wanted));
      return rows.length > 0 ? [{ ...block, rows }] : [];
    }
    case 'troubles': {
      const rows = block.rows.filter((row) => holds(row.join(' '), wanted));
      return rows.length > 0 ? [{ ...block, rows }] : [];
    }
  }
}

/** Beginnings of words count; the order does not. */
function holds(text: string, wanted: readonly string[]): boolean {
  const there = wordsOf(text);
  return wanted.every((word) => there.some((it) => it.startsWith(word)));
}
