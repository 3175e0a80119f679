/**
 * The lamp check on a board: one lamp lit at a time while the sites are held back. They run on underneath; all of it
 * is overrides, which the board drops by itself when it hears nothing for five seconds.
 */
import { ask, type Request } from '../../../shared/link/requests.ts';
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { describeProblem, problem } from '../../../shared/workbench/problems.ts';
import type { CheckBook } from '../checks/check-book.ts';
import { fine } from '../result.ts';
import { askBoard, askOfLayout } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import { knowsNewWords } from './shipped.ts';

type Args<N extends 'beginCheck' | 'light' | 'noteCheck'> = Omit<CallArgs<N>, 'board'>;

export class LampCheck {
  private readonly unit: BoardUnit;
  private readonly book: CheckBook;
  /** Name of the open layout. */
  private readonly layout: () => string;
  private others: 'dark' | 'safe' = 'dark';
  private lit: number | null = null;
  /** Lamps that are held dark around the lit one, while the others show their safe aspects. */
  private held: readonly number[] = [];
  /** Lamps are lit one after the other, however fast it is asked. */
  private queue: Promise<unknown> = Promise.resolve();
  private bookFailed = false;

  constructor(unit: BoardUnit, book: CheckBook, layout: () => string) {
    this.unit = unit;
    this.book = book;
    this.layout = layout;
  }

  /** The open layout is another one, or another text of it. */
  async replanned(): Promise<void> {
    const { unit } = this;
    unit.checkRecord = this.book.recall(this.layout(), unit.plan.id);
    unit.tellState();
    // The lamps have other numbers now, or may have.
    if (unit.checking && !unit.isOpenLayout) await this.end();
  }

  begin({ others }: Args<'beginCheck'>): Promise<Outcome<null>> {
    return this.inTurn(async () => {
      const { unit } = this;
      if (unit.task || unit.job) return problem('boardBusy', unit.link.where);
      const dark = await askOfLayout(unit, ask.lamp('all', others === 'dark' ? 'off' : 'auto'));
      if (!dark.ok) return dark;
      if (others === 'safe') {
        const safe = await askOfLayout(unit, ask.master('safe'));
        if (!safe.ok) return safe;
      } else if (unit.checking && this.others === 'safe') {
        await askOfLayout(unit, ask.master('auto'));
      }
      this.others = others;
      this.lit = null;
      this.held = [];
      const isNew = !unit.checking;
      unit.checking = true;
      unit.tellState();
      const rest = others === 'dark' ? 'all other lamps are dark' : 'the other sites show their safe aspects';
      if (isNew) unit.log('check', `Began a lamp check on ${unit.plan.name}; ${rest}.`, { others });
      await unit.snapshot();
      return fine(null);
    });
  }

  light({ lamp, forMs }: Args<'light'>): Promise<Outcome<null>> {
    return this.inTurn(async () => {
      const { unit } = this;
      if (!unit.checking) return problem('noCheck', unit.session ? unit.link.where : {});
      if (forMs > 0 && !knowsNewWords(unit.link.who)) return problem('cannotTimeLamps', unit.link.where);
      for (const request of this.requestsFor(lamp, forMs)) {
        const done = await askOfLayout(unit, request);
        if (!done.ok) return done;
      }
      return fine(null);
    });
  }

  /** What was lit goes dark before the next lamp is lit; the site of the next one is dark before that. */
  private requestsFor(lamp: number | null, forMs: number): Request<null>[] {
    const before = this.lit;
    const freed = this.held;
    this.lit = lamp;
    const darken = before !== null && before !== lamp ? [ask.lamp(before, 'off')] : [];
    const lit = lamp === null ? [] : [forMs > 0 ? ask.lamp(lamp, 'on', forMs) : ask.lamp(lamp, 'on')];
    if (this.others === 'dark') return [...darken, ...lit];
    const next = lamp === null ? freed : this.beside(lamp);
    this.held = next;
    return [
      ...darken,
      ...next.filter((it) => !freed.includes(it)).map((it) => ask.lamp(it, 'off')),
      ...lit,
      ...freed.filter((it) => !next.includes(it)).map((it) => ask.lamp(it, 'auto')),
    ];
  }

  /** The lamps of the same site, or the lamp alone. */
  private beside(lamp: number): number[] {
    const sites = this.unit.plan.compiled?.sites ?? [];
    const site = sites.find(({ lamps }) => lamps.some(({ index }) => index === lamp));
    return site ? site.lamps.map(({ index }) => index) : [lamp];
  }

  /** Lets the sites show again; fine where no check is under way. */
  end(): Promise<Outcome<null>> {
    return this.inTurn(async () => {
      const { unit } = this;
      if (!unit.checking) return fine(null);
      unit.checking = false;
      const freed = await askBoard(unit, ask.lamp('all', 'auto'));
      const master = this.others === 'safe' ? await askBoard(unit, ask.master('auto')) : freed;
      unit.log('check', `Ended the lamp check on ${unit.plan.name}; its sites show again.`);
      unit.tellState();
      await unit.snapshot();
      return freed.ok ? master : freed;
    });
  }

  async note({ record, said }: Args<'noteCheck'>): Promise<Outcome<CallResults['noteCheck']>> {
    const { unit, book } = this;
    if (record.board !== unit.plan.id) return problem('badRequest', {});
    book.note(this.layout(), record);
    unit.checkRecord = record;
    unit.log('check', said);
    if (book.failure !== null && !this.bookFailed) {
      unit.trouble(describeProblem('checkNotKept', { ...unit.link.where, detail: book.failure }));
    }
    this.bookFailed = book.failure !== null;
    unit.tellState();
    return fine(unit.state());
  }

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.queue.then(work);
    this.queue = turn.catch(() => {});
    return turn;
  }
}
