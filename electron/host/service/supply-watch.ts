/** Sees the supply of a board sag under its lamps. Relative, so it needs no calibration. */
import type { Supply } from '../../../shared/link/requests.ts';
import type { LogFacts } from '../log/session-log.ts';

/** A fall of this share below the highest is told once; common practice, no source. */
const SAG = 0.08;
/** It is over when less than this share is missing, so that it is not told at every flicker. */
const OVER = 0.04;

export interface WatchHooks {
  readonly name: () => string;
  /** Lamps that are lit now. */
  readonly lit: () => number;
  readonly log: (kind: 'problem' | 'power', text: string, data: LogFacts['data']) => void;
}

export class SupplyWatch {
  private readonly hooks: WatchHooks;
  /** Highest reading, mV. */
  private highest = 0;
  private sagged = false;
  /** Most lamps that were lit at once since the last reading. */
  private mostLit = 0;
  /** The first LEAST is of a time before anybody watched. */
  private isFirst = true;

  constructor(hooks: WatchHooks) {
    this.hooks = hooks;
  }

  /** Another board answers, or the scale has changed. */
  restart(): void {
    this.highest = 0;
    this.sagged = false;
    this.mostLit = 0;
    this.isFirst = true;
  }

  /** Between readings, as often as somebody looks. */
  noticeLit(): void {
    this.mostLit = Math.max(this.mostLit, this.hooks.lit());
  }

  take({ millivolts, least: told }: Supply): void {
    this.noticeLit();
    const least = this.isFirst ? millivolts : Math.min(told, millivolts);
    this.isFirst = false;
    this.highest = Math.max(this.highest, millivolts);
    const { highest, mostLit } = this;
    this.mostLit = this.hooks.lit();
    const missing = (highest - least) / highest;
    if (!this.sagged && missing > SAG) {
      this.sagged = true;
      this.hooks.log('problem', sagText(this.hooks.name(), { least, highest, missing, lit: mostLit }), {
        millivolts: least,
        highest,
        lit: mostLit,
      });
    } else if (this.sagged && missing < OVER) {
      this.sagged = false;
      this.hooks.log('power', `The supply of ${this.hooks.name()} was back at ${millivolts} mV.`, {
        millivolts,
        highest,
      });
    }
  }
}

interface Sag {
  readonly least: number;
  readonly highest: number;
  readonly missing: number;
  readonly lit: number;
}

function sagText(board: string, { least, highest, missing, lit }: Sag): string {
  const lamps = lit === 1 ? '1 lamp was lit' : `${lit} lamps were lit`;
  const share = Math.round(missing * 100);
  return `The supply of ${board} sagged to ${least} mV, ${share} % below its highest of ${highest} mV; up to ${lamps} meanwhile.`;
}
