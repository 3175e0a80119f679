/** Colour-light signals with their detectors at random: a million events with `AMBERWICK_EVENTS=1000000`. */
import { describe, expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { makeColourLight, makeSignalLine } from '../../shared/layout/templates/colour-light.ts';
import { seededDice } from '../fixtures/dice.ts';
import { aspects, boardOf } from './lamp-film.ts';

const THREE = ['near', 'middle', 'far'];

/** Share of the million events that an ordinary run does. */
const EVENTS = Number(process.env.AMBERWICK_EVENTS ?? 20_000);
/** Nothing is asserted about how long it takes. */
const PATIENCE = { timeout: 120_000 + EVENTS };
const DEBOUNCE = 10;
const OVERLAP = 2000;

/** When the board believes which level: written from the words of PROTOCOL.md chapter 4, step 2, and from nothing else. */
class Detector {
  level = false;
  /** The tick in which the level turns over. */
  turns = Number.POSITIVE_INFINITY;
  /** Red ends at the earliest in this tick: the overlap after the level, or after the start. */
  red = 1 + OVERLAP;

  set(raw: boolean, now: number): void {
    if (raw === this.level) this.turns = Number.POSITIVE_INFINITY;
    else if (this.turns === Number.POSITIVE_INFINITY) this.turns = now + DEBOUNCE;
  }

  /** Brings the level up to a tick. */
  at(now: number): void {
    if (now < this.turns) return;
    this.level = !this.level;
    this.red = this.level ? Number.POSITIVE_INFINITY : this.turns + OVERLAP;
    this.turns = Number.POSITIVE_INFINITY;
  }
}

const SIGNAL = makeColourLight({ id: 's', name: 'Quay', board: 'b', pins: ['D2', 'D3', 'D4'], passing: 'here' });

describe('detectors at random', PATIENCE, () => {
  it(`${EVENTS} events: red in the tick in which the next section is occupied, and always what the sections mean`, () => {
    const line = makeSignalLine(
      [
        { id: 'a', name: 'First', board: 'b', aspects: 4, pins: ['D2', 'D3', 'D4', 'D5'] },
        { id: 'b', name: 'Second', board: 'b', aspects: 3, pins: ['D6', 'D7', 'D8'] },
        { id: 'c', name: 'Third', board: 'b', aspects: 2, pins: ['D9', 'D10'] },
      ],
      THREE,
    );
    const board = boardOf(line, { inputs: THREE, debounce: DEBOUNCE / 1000 });
    const LIT: readonly (readonly string[])[] = [
      ['...R', '..Y.', 'Y.Y.', '.G..'],
      ['..R', '.Y.', 'G..'],
      ['.R', 'G.'],
    ];
    const detectors = [new Detector(), new Detector(), new Detector()];
    const meant = (now: number): string => {
      for (const detector of detectors) detector.at(now);
      const heads = LIT.map((lit, site) => {
        const ahead = detectors.slice(site, site + lit.length - 1);
        if (now < (ahead[0]?.red ?? 0)) return lit[0];
        const first = ahead.findIndex((detector) => detector.level);
        return lit[first < 0 ? lit.length - 1 : first];
      });
      return heads.join(' ');
    };
    const dice = seededDice(5);
    const wrong: string[] = [];
    const seen = new Map<string, number>();
    const check = (now: number, lit: readonly boolean[]) => {
      const [had, wanted] = [aspects(board, lit), meant(now)];
      if (had !== wanted) wrong.push(`${now}: ${had}, wanted ${wanted}`);
      seen.set(had, (seen.get(had) ?? 0) + 1);
    };
    const run = new Interpreter(board.table, { lamps: check });
    run.start();
    for (let event = 0; event < EVENTS; event++) {
      const input = dice.int(0, 2);
      const isOccupied = dice.int(0, 1) === 1;
      run.setRaw(input, isOccupied);
      detectors[input]?.set(isOccupied, run.ran);
      // Now and then longer than the overlap, mostly about as long as the debounce.
      const end = run.ran + (dice.int(0, 3) === 0 ? dice.int(1, 3000) : dice.int(1, 15));
      // Every tick in which something must change is looked at, and the one before.
      for (;;) {
        const next = Math.min(
          ...detectors.flatMap(({ turns, red }) => [turns, red]).filter((at) => at > run.ran + 1),
          end,
        );
        if (next - 1 > run.ran) {
          run.run(next - 1 - run.ran);
          check(run.ran, run.lit);
        }
        run.run(1);
        check(run.ran, run.lit);
        if (run.ran >= end) break;
      }
    }
    expect(wrong.slice(0, 3)).toEqual([]);
    // All that three sections can mean together has been seen.
    expect(new Set([...seen.keys()].map((it) => it.split(' ')[0]))).toEqual(new Set(LIT[0]));
    expect([0, 1, 2].map((site) => run.fault(site))).toEqual(['none', 'none', 'none']);
  });

  it(`${EVENTS} trains past one detector: red while it is active, and only red, yellow, green after it`, () => {
    const board = boardOf([{ ...SIGNAL, section: 1 }], {
      inputs: ['here'],
      debounce: DEBOUNCE / 1000,
    });
    const dice = seededDice(6);
    const detector = new Detector();
    const steps = new Map<string, number>();
    const wrong: string[] = [];
    let before = '..R';
    const run = new Interpreter(board.table, {
      lamps: (now, lit) => {
        detector.at(now);
        const had = aspects(board, lit);
        if (detector.level && had !== '..R') wrong.push(`${now}: ${had} beside a train`);
        if (had === before) return;
        steps.set(`${before} ${had}`, (steps.get(`${before} ${had}`) ?? 0) + 1);
        before = had;
      },
    });
    run.start();
    for (let event = 0; event < EVENTS; event++) {
      const isHere = dice.int(0, 1) === 1;
      run.setRaw(0, isHere);
      detector.set(isHere, run.ran);
      run.run(dice.int(0, 2) === 0 ? dice.int(1, 15) : dice.int(1, 4000));
      detector.at(run.ran);
      if (detector.level && aspects(board, run.lit) !== '..R') wrong.push(`${run.ran}: not red beside a train`);
    }
    expect(wrong.slice(0, 3)).toEqual([]);
    expect([...steps.keys()].sort()).toEqual(['..R .Y.', '.Y. ..R', '.Y. G..', 'G.. ..R']);
  });
});
