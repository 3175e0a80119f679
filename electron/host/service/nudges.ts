/**
 * Changes of dials while the board runs. A held key asks faster than the line
 * carries: then only the newest wish for a dial waits, and whoever asked for an
 * older one hears what the newest came to.
 */
import { ask } from '../../../shared/link/requests.ts';
import { writeChanges } from '../../../shared/workbench/changes.ts';
import type { CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { timeText } from '../../../shared/workbench/words.ts';
import { fine } from '../result.ts';
import { failureOf, lossOf, openLayoutOn } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import { dialIn } from './images.ts';
import { dialName } from './sentences.ts';
import { logged } from './tuning.ts';

type Nudged = Outcome<CallResults['nudge']>;

interface Waiting {
  ms: number;
  outcome: Promise<Nudged>;
}

interface Dial {
  running: Promise<unknown>;
  waiting: Waiting | null;
}

export class Nudges {
  private readonly unit: BoardUnit;
  private readonly dials = new Map<string, Dial>();

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  nudge(site: number, dial: number, ms: number): Promise<Nudged> {
    const key = `${site}/${dial}`;
    const state: Dial = this.dials.get(key) ?? { running: Promise.resolve(), waiting: null };
    this.dials.set(key, state);
    if (state.waiting) {
      state.waiting.ms = ms;
      return state.waiting.outcome;
    }
    const wish = { ms };
    const outcome = state.running.then(() => {
      state.waiting = null;
      return this.turn(site, dial, wish.ms);
    });
    state.waiting = Object.assign(wish, { outcome });
    state.running = outcome;
    return outcome;
  }

  private async turn(site: number, dial: number, ms: number): Promise<Nudged> {
    const { unit } = this;
    const there = openLayoutOn(unit);
    if (!there.ok) return there;
    const { session, running } = there.value;
    const from = dialIn(running, site, dial);
    const turned = await session.request(ask.dial(site, dial, ms));
    if (!turned.ok) {
      const found = failureOf(unit, turned.error);
      if (!lossOf(unit, turned.error))
        unit.log('problem', `${dialName(unit.plan, site, dial)} stayed: ${found.what}`, { site, dial, to: ms });
      return { ok: false, problem: found };
    }
    const to = turned.value;
    unit.known.dialTurned(site, dial, to);
    if (to !== from) {
      const was = from === null ? '' : ` from ${timeText(from)}`;
      unit.log('nudge', `Changed ${dialName(unit.plan, site, dial)}${was} to ${timeText(to)} on ${unit.plan.name}.`, {
        site,
        dial,
        from,
        to,
        changes: writeChanges(logged(unit.plan, [{ site, dial, from: from ?? to, to }])),
      });
    }
    const snap = await session.request(ask.snap());
    if (snap.ok && session === unit.session) unit.known.takeFlags(snap.value);
    unit.tellState();
    return fine({ ms: to });
  }
}
