/** What every kind of site is compiled to before the board's numbers are known. */
import type { Finding } from '../findings/finding.ts';
import type { Lamp } from '../layout/outputs.ts';
import type { Program } from '../table/model.ts';
import type { PlannedDial } from './dials.ts';

export interface PlannedLamp {
  /** Head, phase or lamp name. */
  readonly label: string;
  readonly colour: string;
  readonly output: Lamp;
  /** Place of the output in the document. */
  readonly path: string;
}

export interface SitePlan {
  readonly program: Program;
  /** Row that the site begins with. */
  readonly start: number;
  /** The first interval lasts this much longer once, ms. */
  readonly offset: number;
  readonly dials: readonly PlannedDial[];
  readonly lamps: readonly PlannedLamp[];
  /** Ids of the layout's inputs, in the order of the program's inputs, and where each is first named. */
  readonly inputs: readonly { readonly id: string; readonly path: string }[];
  /** One for each row of the program. */
  readonly rows: readonly { readonly label: string }[];
  /** Cycle of the site at its planned times, ms; null where it has none of its own. */
  readonly cycle: number | null;
}

export interface Planned {
  /** Null when there is an error among the findings. */
  readonly plan: SitePlan | null;
  readonly findings: Finding[];
}

/** What a site needs to know of its common cycle. */
export interface CommonCycle {
  /** ms. */
  readonly cycle: number;
  readonly greatest: number;
}

/** The board counts hundredths up to 327.67 s and whole seconds beyond; rounds down. */
export function holdable(ms: number): number {
  return ms <= 327670 ? Math.floor(ms / 10) * 10 : Math.floor(ms / 1000) * 1000;
}
