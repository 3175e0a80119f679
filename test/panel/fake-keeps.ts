/** What the boards of a test kept before, as the host's book has it. */
import type { EarlierKeep } from '../../shared/workbench/contract.ts';
import type { FakeBoard } from './fake-board.ts';

interface Copy {
  readonly at: string;
  readonly crc: string;
  readonly dials: readonly (readonly number[])[];
}

export class FakeKeeps {
  readonly #copies = new Map<string, Copy[]>();
  #count = 0;

  /** The board keeps what it runs; a day passes between two. */
  note(board: FakeBoard): void {
    this.#count += 1;
    const at = `2026-01-${String(this.#count).padStart(2, '0')}T19:00:00.000Z`;
    const crc = this.#count.toString(16).toUpperCase().padStart(4, '0');
    const { id } = board.compiled;
    const copy = { at, crc, dials: board.dials().map((row) => [...row]) };
    this.#copies.set(id, [copy, ...(this.#copies.get(id) ?? [])]);
    board.become({ keptCrc: crc });
  }

  /** Keeps one of them while what runs stays; false where it is not there. */
  keepEarlier(board: FakeBoard, crc: string): boolean {
    const copy = this.#copies.get(board.compiled.id)?.find((it) => it.crc === crc);
    if (!copy) return false;
    board.keep(copy.dials);
    board.become({ keptCrc: crc });
    return true;
  }

  list(board: FakeBoard): EarlierKeep[] {
    const now = board.dials();
    const copies = this.#copies.get(board.compiled.id) ?? [];
    return copies.map(({ at, crc, dials }, index) => ({
      at,
      crc,
      layout: 'Penmarrow',
      match: 'times',
      isNow: index === 0,
      changes: dials.flatMap((row, site) =>
        row.flatMap((was, dial) => {
          const names = board.compiled.sites[site];
          const name = `${names?.name} ${names?.dials[dial]?.name}`;
          return was === now[site]?.[dial] ? [] : [{ name, was, now: now[site]?.[dial] ?? null }];
        }),
      ),
    }));
  }

  /** Runs and keeps one of them; false where it is not there. */
  putBack(board: FakeBoard, at: string): boolean {
    const copy = this.#copies.get(board.compiled.id)?.find((it) => it.at === at);
    if (!copy) return false;
    board.start(copy.dials);
    board.keep();
    this.note(board);
    return true;
  }
}
