/**
 * What the answers of a check come to. Each output is asked which lamp it really lights; where these are a
 * permutation of the planned ones (or a part of one that ends at a dark lamp), wires are exchanged and nothing else.
 */
import type { Load } from '../electrics/model.ts';
import type { CheckedLamp } from '../layout/check-record.ts';
import { lampsFor } from './lamps.ts';

/** A lamp that hangs on another output than the planned one. */
export interface Move {
  readonly lamp: Load;
  /** The lamp whose output it really hangs on. */
  readonly at: Load;
}

/** Wires that are exchanged among each other. */
export interface Swap {
  /** Each lamp with the output that it hangs on: two for a plain swap, more for a longer round. */
  readonly moves: readonly Move[];
  /** The lamp that nothing lit, where the round is not closed. It gets the output that is left over, and stays dark. */
  readonly missing: Load | null;
}

/** An answer that cannot be true together with others. */
export interface Doubt {
  readonly lamps: readonly Load[];
  readonly why: string;
}

export interface Diagnosis {
  readonly swaps: readonly Swap[];
  readonly dark: readonly Load[];
  readonly dim: readonly Load[];
  readonly two: readonly { readonly lamp: Load; readonly with: readonly Load[] }[];
  /** Something else lit: `saw` is empty when it is no lamp of the plan, and has several when wires touch as well. */
  readonly strange: readonly { readonly lamp: Load; readonly saw: readonly Load[] }[];
  /** To be asked again. */
  readonly doubts: readonly Doubt[];
  /** Lamps whose answer is still needed before the wrong ones can be put right. */
  readonly needed: readonly Load[];
  readonly right: readonly Load[];
}

const WHY_UNSETTLED =
  'These lamps are exchanged with others whose wires touch, or of which too little is known. Mend or check those first, then ask for these again.';

/** `answers`: by number of the lamp, each for the output that the lamp has now. */
export function diagnose(loads: readonly Load[], answers: ReadonlyMap<number, CheckedLamp>): Diagnosis {
  const of = (result: CheckedLamp['result']): Load[] =>
    loads.filter(({ lamp }) => answers.get(lamp)?.result === result);
  const wrong = of('wrong');
  const saw = (load: Load): Load[] =>
    (answers.get(load.lamp)?.saw ?? []).flatMap((key) => {
      const meant = lampsFor(loads, key);
      // Of two lamps with one name nobody can say which was meant.
      return meant.length === 1 ? meant : [];
    });
  const pointed = new Map(
    wrong.flatMap((load) => {
      const [seen, ...more] = saw(load);
      return seen && more.length === 0 ? [[load, seen] as const] : [];
    }),
  );
  const { doubts, doubted } = contradictions(loads, answers, pointed);
  const sound = new Map([...pointed].filter(([load]) => !doubted.has(load)));
  const seen = new Set(loads.flatMap(saw));
  const rounds = roundsOf(sound, answers).map((round) =>
    // Nothing lit it alone, but it did light: with others, whose wires touch.
    round.missing && seen.has(round.missing)
      ? { ...round, missing: null, open: round.moves.at(-1)?.lamp ?? null }
      : round,
  );
  // Where it ends at an answer in doubt, that one is asked again first.
  const unsettled = rounds.filter(({ open }) => open !== null && answers.has(open.lamp) && !doubted.has(open));
  return {
    swaps: rounds.filter((round) => round.open === null).map(({ moves, missing }) => ({ moves, missing })),
    dark: of('dark'),
    dim: of('dim'),
    two: of('two').map((lamp) => ({ lamp, with: saw(lamp) })),
    strange: wrong.filter((load) => !pointed.has(load)).map((lamp) => ({ lamp, saw: saw(lamp) })),
    doubts: [...doubts, ...unsettled.map(({ moves }) => ({ lamps: moves.map(({ at }) => at), why: WHY_UNSETTLED }))],
    needed: rounds.flatMap(({ open }) => (open !== null && !answers.has(open.lamp) ? [open] : [])),
    right: of('right'),
  };
}

/** No lamp hangs on two outputs, unless wires touch: all answers that say so are in doubt. */
function contradictions(
  loads: readonly Load[],
  answers: ReadonlyMap<number, CheckedLamp>,
  pointed: ReadonlyMap<Load, Load>,
): { doubts: Doubt[]; doubted: Set<Load> } {
  const doubts: Doubt[] = [];
  const doubted = new Set<Load>();
  for (const lamp of loads) {
    const asked = [...pointed].filter(([, seen]) => seen === lamp).map(([load]) => load);
    const result = answers.get(lamp.lamp)?.result;
    const litItself = result === 'right' || result === 'dim' || result === 'two';
    const claims = litItself ? [...asked, lamp] : asked;
    if (claims.length < 2) continue;
    for (const claim of claims) doubted.add(claim);
    doubts.push({ lamps: claims, why: whyTwice(claims, lamp) });
  }
  return { doubts, doubted };
}

function whyTwice(claims: readonly Load[], lamp: Load): string {
  const outputs = claims.map(({ outputName }) => outputName).join(' and ');
  return `By the answers ${outputs} light the same lamp (${lamp.label}${lamp.colour === '' ? '' : `, ${lamp.colour}`}). One answer may be a slip; if they stay so, two wires touch.`;
}

interface Round extends Swap {
  /** Where it leads to a lamp of which too little is known; null when it is settled. */
  readonly open: Load | null;
}

/** Follows each wrong lamp to the one that lit in its place, until that comes round or ends. */
function roundsOf(pointed: ReadonlyMap<Load, Load>, answers: ReadonlyMap<number, CheckedLamp>): Round[] {
  const targets = new Set(pointed.values());
  const left = new Map(pointed);
  const follow = (start: Load): Round => {
    const moves: Move[] = [];
    let at: Load = start;
    for (let seen = left.get(at); seen; seen = left.get(at)) {
      left.delete(at);
      moves.push({ lamp: seen, at });
      at = seen;
    }
    if (at === start) return { moves, missing: null, open: null };
    const isDark = answers.get(at.lamp)?.result === 'dark';
    // The output at the end lights nothing, and nothing lit the lamp at the start: they are left for each other.
    return { moves, missing: isDark ? start : null, open: isDark ? null : at };
  };
  const ends = [...pointed.keys()].filter((load) => !targets.has(load)).map(follow);
  const closed: Round[] = [];
  for (const load of pointed.keys()) if (left.has(load)) closed.push(follow(load));
  return [...ends, ...closed];
}
