/** What a board kept before: a list to choose from, and the way back to one of them. */
import { imageCrc } from '../../../shared/table/shape.ts';
import type { BoardState, EarlierKeep, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { KeptCopy } from '../book/board-book.ts';
import type { BoardTasks } from './board-tasks.ts';
import type { BoardUnit } from './board-unit.ts';
import { compareImages, sameImage } from './images.ts';
import { changedBack, changesSince, namedDials } from './kept-words.ts';
import { hex } from './sentences.ts';

export class EarlierKeeps {
  private readonly unit: BoardUnit;
  private readonly tasks: BoardTasks;

  constructor(unit: BoardUnit, tasks: BoardTasks) {
    this.unit = unit;
    this.tasks = tasks;
  }

  /** Also of a board that is away: then nothing is known of what differs. */
  list(): EarlierKeep[] {
    const { kept } = this.unit.known;
    const copies = this.copies();
    // What it starts with now may have been kept before, too.
    const now = kept ? copies.findIndex(({ image }) => sameImage(image, kept)) : -1;
    return copies.map((copy, at) => ({ ...this.told(copy), isNow: at === now }));
  }

  async putBack({ at, crc }: { readonly at: string; readonly crc: string }): Promise<Outcome<BoardState>> {
    const { unit } = this;
    const copy = this.copies().find((it) => it.at === at && hex(imageCrc(it.image)) === crc);
    if (!copy) return problem('keepGone', unit.link.where);
    const { changes, layout } = this.told(copy);
    const what = changes && changes.length > 0 ? changedBack(changes) : layout || 'another layout';
    return this.tasks.sendKept(
      copy.image,
      `Put back and kept on ${unit.plan.name} what it kept on ${day(at)}: ${what}.`,
    );
  }

  private copies(): KeptCopy[] {
    const { plan, virtual, hooks } = this.unit;
    return hooks.memory.keptCopies(plan, virtual !== null);
  }

  private told({ at, layout, image, dials }: KeptCopy): Omit<EarlierKeep, 'isNow'> {
    const { plan, known } = this.unit;
    const running = known.running ? namedDials(plan, known.running) : null;
    return {
      at,
      layout,
      crc: hex(imageCrc(image)),
      match: compareImages(image, plan.image?.bytes ?? null).match,
      // A copy that was made before names were noted is of the open layout all the same, or is not.
      changes: changesSince(dials.length > 0 ? dials : (namedDials(plan, image) ?? []), running),
    };
  }
}

/** `2026-11-25`, in the zone of this computer. */
function day(iso: string): string {
  const at = new Date(iso);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
