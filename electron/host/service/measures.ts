/** What the chip can measure by itself: pins, and its own supply; and outputs that are lit for a moment. */
import { outputName } from '../../../shared/layout/wiring/numbers.ts';
import { ask, type Request, type Supply } from '../../../shared/link/requests.ts';
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { type ProblemCode, problem } from '../../../shared/workbench/problems.ts';
import { fine } from '../result.ts';
import type { BoardSession } from '../session.ts';
import { failureOf } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import { knowsNewWords } from './shipped.ts';
import { SupplyWatch } from './supply-watch.ts';

type Args<N extends 'pulse' | 'probe' | 'supply'> = Omit<CallArgs<N>, 'board'>;

type RefusedAs = Readonly<Record<string, ProblemCode>>;

/** Between two looks at the supply, ms of the host. */
const LOOK_MS = 5000;

export class Measures {
  private readonly unit: BoardUnit;
  private readonly watch: SupplyWatch;
  /** The session that is watched, when it was looked at last, and whether its firmware can tell. */
  private watched: { readonly session: BoardSession; at: number; canTell: boolean } | null = null;
  /** Lowest supply since somebody asked, mV. */
  private least: number | null = null;

  constructor(unit: BoardUnit) {
    this.unit = unit;
    this.watch = new SupplyWatch({
      name: () => unit.plan.name,
      lit: () => litLamps(unit.view.state(unit.plan.id).lit),
      log: (kind, text, data) => unit.log(kind, text, data),
    });
    unit.onBeat = () => void this.look();
  }

  async pulse({ output, high, forMs }: Args<'pulse'>): Promise<Outcome<null>> {
    return this.request(ask.pulse(output, high, forMs), { badOutput: 'outputNotFree' }, this.nameOf(output));
  }

  async probe({ pin, activeLow }: Args<'probe'>): Promise<Outcome<CallResults['probe']>> {
    const refusedAs = { badOutput: 'pinNotMeasured', lampsLit: 'lampsLit' } as const;
    return this.request(ask.probe(pin, !activeLow), refusedAs, this.nameOf(pin));
  }

  /** With what a meter shows the board is calibrated first. */
  async supply({ meterMillivolts }: Args<'supply'>): Promise<Outcome<CallResults['supply']>> {
    const { unit } = this;
    if (meterMillivolts !== undefined) {
      const set = await this.request(ask.meter(meterMillivolts), { outsideLimits: 'meterUnlikely' });
      if (!set.ok) return set;
      unit.log('power', calibratedText(unit.plan.name, meterMillivolts, set.value), {
        meterMillivolts,
        reference: set.value,
      });
      // What was told before was of another scale.
      this.watch.restart();
      this.least = null;
    }
    const told = await this.request(ask.supply(), {});
    if (!told.ok) return told;
    this.take(told.value);
    const least = this.least ?? told.value.least;
    this.least = null;
    return fine({ ...told.value, least });
  }

  /** Looks at the supply every few seconds while the board answers and can tell. */
  private async look(): Promise<void> {
    const { session, hooks } = this.unit;
    if (!session) return;
    const now = hooks.clock.now();
    if (this.watched?.session !== session) {
      this.watched = { session, at: now, canTell: this.canTell };
      this.least = null;
      this.watch.restart();
    }
    const { watched } = this;
    this.watch.noticeLit();
    if (!watched.canTell || now - watched.at < LOOK_MS) return;
    watched.at = now;
    const told = await session.request(ask.supply());
    if (told.ok && this.watched === watched) this.take(told.value);
    else if (!told.ok && told.error.kind === 'refused') watched.canTell = false;
  }

  private take(told: Supply): void {
    const { unit } = this;
    this.least = Math.min(this.least ?? told.least, told.least);
    this.watch.take(told);
    unit.known.supplyTold(told.millivolts);
    unit.tellState();
  }

  private nameOf(output: number): string {
    return outputName(this.unit.plan, output);
  }

  private get canTell(): boolean {
    return knowsNewWords(this.unit.link.who);
  }

  /** `refusedAs`: the problem for a refusal by its key; `detail`: the output that it is about. */
  private async request<T>(request: Request<T>, refusedAs: RefusedAs, detail?: string): Promise<Outcome<T>> {
    const { unit } = this;
    const { session } = unit;
    if (!session) return { ok: false, problem: unit.absence };
    const { where } = unit.link;
    if (!this.canTell) return problem('cannotMeasure', where);
    const answer = await session.request(request);
    if (answer.ok) return answer;
    const { error } = answer;
    const known =
      error.kind === 'refused' ? { ...refusedAs, unknownVerb: 'cannotMeasure' as const }[error.key] : undefined;
    if (known) return problem(known, { ...where, ...(detail === undefined ? {} : { detail }) });
    return { ok: false, problem: failureOf(unit, error) };
  }
}

function calibratedText(board: string, shown: number, reference: number): string {
  return `Calibrated the supply of ${board} by a meter that showed ${shown} mV: its reference is ${reference} mV.`;
}

/** How many bits are set in hexadecimal digits. */
function litLamps(lit: string): number {
  return [...lit].reduce(
    (sum, digit) => sum + [1, 2, 4, 8].filter((bit) => Number.parseInt(digit, 16) & bit).length,
    0,
  );
}
