/** What this computer remembers of the board behind a link, and what it says of it. */
import type { Who } from '../../../shared/link/requests.ts';
import type { BoardState } from '../../../shared/workbench/contract.ts';
import { type BoardBook, type BoardPage, bookKey } from '../book/board-book.ts';
import { siliconOf } from '../loader/silicon.ts';
import type { LoaderKind, Written } from '../loader/types.ts';
import type { BoardPlan } from './document.ts';
import { compareImages } from './images.ts';

export interface Remembered {
  readonly who: Who;
  readonly plan: BoardPlan;
}

export class BoardMemory {
  private readonly book: BoardBook;

  constructor(book: BoardBook) {
    this.book = book;
  }

  /** A real board was met; `kept` is what it keeps, if anything. */
  met({ who, plan }: Remembered, kept: Uint8Array | null | undefined): void {
    this.book.learn(bookKey(who.identity, plan.id), plan.chip, {
      board: plan.id,
      name: plan.name,
      ...(kept ? { kept } : {}),
    });
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

  private page(who: Who | null, plan: BoardPlan): BoardPage | null {
    return who && this.book.recall(bookKey(who.identity, plan.id));
  }
}
