/**
 * Undo of Keep. The board keeps only what it runs, so it stands still for a moment, runs the earlier times, keeps
 * them, and gets the times back that ran. No lamp changes meanwhile, and no interval ends.
 */
import { ask } from '../../../shared/link/requests.ts';
import { dialOffsets, imageCrc, imageShape } from '../../../shared/table/shape.ts';
import { timeAt } from '../../../shared/table/time.ts';
import type { CallResults, Outcome, Problem } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { timeText } from '../../../shared/workbench/words.ts';
import { fine } from '../result.ts';
import type { BoardSession } from '../session.ts';
import { failureOf } from './ask-board.ts';
import { type BoardTasks, begin, failedWith, keptData, start } from './board-tasks.ts';
import type { BoardUnit } from './board-unit.ts';
import { dialsOf } from './images.ts';
import { changeList, dialChanges, hex } from './sentences.ts';

/** A time of the running table that is another in the one to keep; groups count from 128. */
interface Swap {
  readonly site: number;
  readonly dial: number;
  readonly running: number;
  readonly kept: number;
}

export class KeepAgain {
  private readonly unit: BoardUnit;
  private readonly tasks: BoardTasks;

  constructor(unit: BoardUnit, tasks: BoardTasks) {
    this.unit = unit;
    this.tasks = tasks;
  }

  async keep(crc: string): Promise<Outcome<CallResults['keepEarlier']>> {
    const { unit } = this;
    const begun = begin(unit);
    if (!begun.ok) return begun;
    const image = this.find(crc);
    const { running, kept } = unit.known;
    if (!image) return problem('keepGone', unit.link.where);
    if (!running || imageShape(running) !== imageShape(image)) return problem('keepOther', unit.link.where);
    start(unit, 'keep', 1);
    const done = await this.swapAndKeep(begun.value, image, swapsBetween(running, image));
    if (typeof done !== 'number') return done;
    unit.task = null;
    const changes = dialChanges(kept ? dialsOf(kept) : null, dialsOf(image));
    const what = changes.length === 0 ? 'the table of before' : changeList(unit.plan, changes);
    unit.log(
      'keep',
      `Kept on ${unit.plan.name} what it kept before: ${what}. What runs stayed; the board stood still for ${timeText(done)}, and its memory was written once more.`,
      { ...keptData(unit), stood: done },
    );
    await unit.snapshot();
    return fine({ keeps: unit.known.keeps, stood: done });
  }

  /** How long the board stood still, ms; else what failed. The running times are put back in either case. */
  private async swapAndKeep(
    session: BoardSession,
    image: Uint8Array,
    swaps: readonly Swap[],
  ): Promise<number | ReturnType<typeof failedWith>> {
    const { unit } = this;
    const { clock } = unit.hooks;
    const wasPaused = unit.known.flags.has('paused');
    const began = clock.now();
    if (!wasPaused) {
      const paused = await session.request(ask.pause());
      if (!paused.ok) return failedWith(unit, paused.error);
    }
    const refused = await this.turn(session, swaps, 'kept');
    const failure = refused ? this.notKept(refused) : await this.tasks.keepRunning(session, image);
    const left = await this.turn(session, swaps, 'running');
    if (!wasPaused) await session.request(ask.run());
    const stood = Math.max(0, Math.round(clock.now() - began));
    // What it runs now is for the board to say.
    if (left && session === unit.session) await unit.readImages(session);
    return failure ?? stood;
  }

  private async turn(session: BoardSession, swaps: readonly Swap[], to: 'kept' | 'running'): Promise<Problem | null> {
    const answers = await Promise.all(
      swaps.map(({ site, dial, [to]: ms }) => session.request(ask.dial(site, dial, ms))),
    );
    for (const answer of answers) if (!answer.ok) return failureOf(this.unit, answer.error);
    return null;
  }

  private notKept(found: Problem): ReturnType<typeof failedWith> {
    const { unit } = this;
    unit.task = null;
    unit.notice = found;
    unit.log('problem', `${unit.plan.name} still keeps what it kept: ${found.what}`, { code: found.code });
    return { ok: false, problem: found };
  }

  private find(crc: string): Uint8Array | null {
    const { plan, virtual, hooks } = this.unit;
    const copies = hooks.memory.keptCopies(plan, virtual !== null).map(({ image }) => image);
    return [...this.tasks.earlier, ...copies].find((image) => hex(imageCrc(image)) === crc) ?? null;
  }
}

/** Times that differ between two images of one shape. */
function swapsBetween(running: Uint8Array, kept: Uint8Array): Swap[] {
  const places = dialOffsets(running);
  const at = (site: number, dial: number, offset: number): Swap[] => {
    const swap = { site, dial, running: timeAt(running, offset), kept: timeAt(kept, offset) };
    return swap.running === swap.kept ? [] : [swap];
  };
  return [
    ...(places?.sites ?? []).flatMap((dials, site) => dials.flatMap((offset, dial) => at(site, dial, offset))),
    ...(places?.groups ?? []).flatMap((offset, group) => at(128 + group, 0, offset)),
  ];
}
