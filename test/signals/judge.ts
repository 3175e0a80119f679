/** Watches the greens of a running junction and holds them against the rules of its file. */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import type { Act } from '../fixtures/film.ts';
import type { AnySite } from './any-site.ts';

export interface Verdict {
  /** Every rule that was broken, in words. */
  readonly breaches: string[];
  /** Greens that began. */
  readonly greens: number;
  /** Starts of green that came exactly when an intergreen was over. */
  readonly exact: number;
  /** Demands made for a phase that was red, all of them served in time. */
  readonly served: number;
}

interface Watched {
  green: boolean;
  /** Since when; null before the first change. */
  begin: number | null;
  end: number | null;
  /** Somebody asks since. */
  asked: number | null;
}

export function judge(site: AnySite, table: BoardTable, ms: number, acts: readonly Act[]): Verdict {
  const program = table.programs[0];
  const verdict = { breaches: [] as string[], greens: 0, exact: 0, served: 0 };
  const lampOf = site.phases.map((phase) => program?.lamps.indexOf(`${phase.id} green`) ?? -1);
  const state: Watched[] = site.phases.map(() => ({ green: false, begin: null, end: null, asked: null }));
  const late = (now: number): void => {
    state.forEach((it, index) => {
      if (it.asked !== null && now - it.asked > site.round) {
        verdict.breaches.push(`${now} ${site.phases[index]?.id} asked at ${it.asked} and was not served`);
        it.asked = null;
      }
    });
  };
  /** When each stage that always comes was left; absent while it runs. */
  const left = new Map<string, number>();
  let running = '';
  const stages = (now: number, row: number): void => {
    const interval = program?.rows[row];
    const dial =
      interval === undefined || !('states' in interval)
        ? undefined
        : 'dial' in interval
          ? interval.dial
          : 'min' in interval
            ? interval.min
            : undefined;
    const name = program?.dials[dial ?? -1]?.name ?? '';
    const next = name.startsWith('green-') ? name.slice('green-'.length) : '';
    if (running !== '' && next !== running && site.always.includes(running)) left.set(running, now);
    if (next !== '') left.delete(next);
    running = next;
    for (const [stage, since] of left) {
      if (now - since > site.round) verdict.breaches.push(`${now} stage ${stage} has not come since ${since}`);
    }
  };
  const started = (index: number, now: number): void => {
    const id = site.phases[index]?.id ?? '';
    verdict.greens += 1;
    let exact = false;
    state.forEach((other, at) => {
      const required = site.intergreens.get((site.phases[at]?.id ?? '') + id);
      if (required === undefined) return;
      if (other.green) verdict.breaches.push(`${now} ${id} and ${site.phases[at]?.id} green together`);
      if (other.end === null) return;
      if (now - other.end < required) verdict.breaches.push(`${now} ${id} after ${now - other.end} of ${required}`);
      exact ||= now - other.end === required;
    });
    if (exact) verdict.exact += 1;
  };
  const board = new Interpreter(table, {
    row: (now, _, row) => {
      const interval = program?.rows[row];
      if (!interval || !('states' in interval)) return;
      stages(now, row);
      const before = state.map((it) => it.green);
      const after = lampOf.map((lamp) => interval.states[lamp] === 'lit');
      // Ends first: who stops and who starts in the same tick stand an intergreen of zero apart.
      state.forEach((it, index) => {
        if (before[index] && !after[index]) {
          const least = site.phases[index]?.minGreen ?? 0;
          if (it.begin !== null && now - it.begin < 1000 * least) {
            verdict.breaches.push(`${now} ${site.phases[index]?.id} green for ${now - it.begin} only`);
          }
          it.green = false;
          it.end = now;
        }
      });
      state.forEach((it, index) => {
        if (before[index] || !after[index]) return;
        if (now > 0) started(index, now);
        it.green = true;
        it.begin = now > 0 ? now : null;
        if (it.asked !== null) verdict.served += 1;
        it.asked = null;
      });
      late(now);
    },
    demand: (now, input) => {
      const id = table.inputs[input]?.name;
      site.phases.forEach((phase, index) => {
        const it = state[index];
        if (phase.demand === id && it && !it.green && it.asked === null) it.asked = now;
      });
    },
    fault: (now, _, fault) => verdict.breaches.push(`${now} fault ${fault}`),
  });
  board.start();
  for (const [at, act] of acts) {
    board.run(at - board.ran);
    act(board);
  }
  board.run(ms - board.ran);
  late(board.now);
  stages(board.now, board.row(0));
  if (site.home !== null && running !== site.home) verdict.breaches.push(`stands in ${running}, not in ${site.home}`);
  return verdict;
}
