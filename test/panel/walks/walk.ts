/** To and fro through what was done: at each step everything is as it was when that step was the newest. */
import type { Dice } from '../../fixtures/dice.ts';
import type { WalkBench } from './bench.ts';
import { aMove, MOVES } from './moves.ts';

export interface Walked {
  /** Moves that were steps, by name. */
  readonly steps: Readonly<Record<string, number>>;
  readonly undone: number;
  /** What went wrong first; null in good health. */
  readonly wrong: string | null;
}

export async function walk(dice: Dice, bench: WalkBench): Promise<Walked> {
  const { history, open } = bench.model;
  history.clear();
  const steps: Record<string, number> = {};
  let undone = 0;
  const told: string[] = [];
  /** `states[n]`: how all was with n steps done. */
  const states = new Map([[0, bench.state()]]);
  const wrong = (what: string): Walked => ({ steps, undone, wrong: `${what}\nAfter: ${told.join('; ')}` });

  const go = async (way: 'undo' | 'redo'): Promise<string | null> => {
    const before = history.done.value.length;
    await history[way]();
    await bench.settle();
    told.push(way);
    undone++;
    const after = history.done.value.length;
    if (after !== before + (way === 'undo' ? -1 : 1))
      return `${way} was refused: ${JSON.stringify(bench.model.trouble.value)}`;
    return states.get(after) === bench.state()
      ? null
      : `${way} to ${after}: ${differs(states.get(after), bench.state())}`;
  };

  for (let left = dice.int(4, 10); left > 0; left--) {
    bench.pass(2000);
    const before = { length: history.done.value.length, newest: history.newest, state: bench.state() };
    const { layout } = open.value;
    const chosen = dice.int(1, 100);
    if (chosen > 75 && before.length > 0) {
      const found = await go('undo');
      if (found) return wrong(found);
    } else if (chosen > 60 && history.canRedo.value) {
      const found = await go('redo');
      if (found) return wrong(found);
    } else if (layout) {
      const name = aMove(dice, told.at(-1));
      told.push(name);
      await MOVES[name]?.(dice, bench, layout);
      await bench.settle();
      const { length } = history.done.value;
      if (length === before.length && history.newest === before.newest) {
        if (bench.state() !== before.state) return wrong(`${name} is no step: ${differs(before.state, bench.state())}`);
        continue;
      }
      steps[name] = (steps[name] ?? 0) + 1;
      if (length === 0) return wrong(`${name} took steps away`);
      states.set(length, bench.state());
    }
  }
  const [last, top] = [bench.state(), history.done.value.length];
  while (history.done.value.length > 0) {
    const found = await go('undo');
    if (found) return wrong(found);
  }
  while (history.done.value.length < top) {
    const found = await go('redo');
    if (found) return wrong(found);
  }
  if (bench.state() !== last) return wrong('all the way back and forth is not the same');
  while (history.done.value.length > 0) {
    const found = await go('undo');
    if (found) return wrong(found);
  }
  return { steps, undone, wrong: null };
}

/** The first line that is another one. */
function differs(wanted: string | undefined, got: string): string {
  if (wanted === undefined) return 'nobody has been there';
  const [one, other] = [wanted.split('\n'), got.split('\n')];
  const at = one.findIndex((line, index) => line !== other[index]);
  return `wanted ${one[at]?.slice(0, 200)}\ngot ${other[at]?.slice(0, 200)}`;
}
