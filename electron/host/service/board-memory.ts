/** What this computer remembers of the board behind a link, and what it says of it. */
import type { Who } from '../../../shared/link/requests.ts';
import type { BoardState } from '../../../shared/workbench/contract.ts';
import { type BoardBook, type BoardPage, bookKey, type KeptCopy } from '../book/board-book.ts';
import { CYCLES_MADE_FOR, WORN_AT } from '../book/wear.ts';
import { siliconOf } from '../loader/silicon.ts';
import type { LoaderKind, Written } from '../loader/types.ts';
import type { BoardPlan } from './document.ts';
import { compareImages } from './images.ts';
import { namedDials } from './kept-words.ts';

export interface Remembered {
  readonly who: Who;
  readonly plan: BoardPlan;
  /** A virtual board: its copies never take the place of a real board's. */
  readonly virtual: boolean;
}

/** What a board has told of its memory; `kept` is undefined or null where it is not known or there is none. */
export interface Told {
  readonly kept: Uint8Array | null | undefined;
  readonly keeps: number;
  /** Name of the open layout. */
  readonly layout: string;
}

export class BoardMemory {
  private readonly book: BoardBook;

  constructor(book: BoardBook) {
    this.book = book;
  }

  /** A board was met, or has kept something. */
  met(board: Remembered, { kept, keeps, layout }: Told): void {
    const { plan, virtual } = board;
    const dials = kept ? namedDials(plan, kept) : null;
    this.book.learn(keyOf(board), plan.chip, {
      board: virtual ? virtualPlace(plan) : plan.id,
      name: plan.name,
      keeps,
      ...(kept ? { kept } : {}),
      ...(dials ? { named: { layout, dials } } : {}),
    });
  }

  /** A table is being sent to it. */
  sending(board: Remembered): void {
    this.book.sending(keyOf(board), board.plan.chip);
  }

  /** What boards in this place of the layout keep and have kept, the newest first; at most one of a moment. */
  keptCopies(plan: BoardPlan, virtual: boolean): KeptCopy[] {
    return this.book
      .copiesFor(virtual ? virtualPlace(plan) : plan.id, plan.chip)
      .flatMap(({ kept, earlier }) => [...(kept ? [kept] : []), ...earlier])
      .sort((a, b) => b.at.localeCompare(a.at));
  }

  /** How worn the memory of a board may be; null for one never met. */
  wear(board: Remembered): BoardState['wear'] {
    const tally = this.book.facts(keyOf(board))?.tally;
    if (!tally) return null;
    const { keeps, sends } = tally;
    return { keeps, sends, madeFor: CYCLES_MADE_FOR, worn: keeps + sends >= WORN_AT };
  }

  wrote({ who, plan }: Remembered, { silicon, loader }: Written): void {
    this.book.learn(bookKey(who.identity, plan.id), silicon.chip, {
      board: plan.id,
      signature: silicon.signature,
      loader,
    });
  }

  /** Null where nobody knows. */
  silicon(who: Who | null, plan: BoardPlan): BoardState['silicon'] {
    const signature = this.page(who, plan)?.signature;
    const found = signature ? siliconOf(signature) : null;
    return found && { name: found.name, totalMilliamps: found.totalMilliamps };
  }

  /** Null where nobody knows. */
  loader(who: Who | null, plan: BoardPlan): LoaderKind | null {
    return this.page(who, plan)?.loader ?? null;
  }

  copiedAt(plan: BoardPlan): string | null {
    return this.copies(plan)[0]?.kept?.at ?? null;
  }

  /** What boards in this place of the layout kept, the newest first; tables of another layout are left out. */
  copies(plan: BoardPlan): BoardPage[] {
    const wanted = plan.image?.bytes ?? null;
    const fits = ({ kept }: BoardPage) => wanted === null || compareImages(kept?.image, wanted).match !== 'other';
    return this.book.copiesFor(plan.id, plan.chip).filter(fits);
  }

  /** Why the disk does not take what is remembered; null in good health. */
  get failure(): string | null {
    return this.book.failure;
  }

  private page(who: Who | null, plan: BoardPlan): ReturnType<BoardBook['facts']> {
    return who && this.book.facts(bookKey(who.identity, plan.id));
  }
}

function keyOf({ who, plan, virtual }: Remembered): string {
  return virtual ? `virtual-${plan.id}-${plan.chip}` : bookKey(who.identity, plan.id);
}

function virtualPlace({ id }: BoardPlan): string {
  return `virtual:${id}`;
}
