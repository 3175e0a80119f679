/** Planned, running and kept times side by side. */

import type { OpenSite } from './document.ts';
import type { Model } from './model.ts';

/** One dial of a site in all its times, ms; null where the time is not known. */
export interface DialTimes {
  readonly site: OpenSite;
  /** Number in the site. */
  readonly dial: number;
  readonly id: string;
  readonly name: string;
  readonly planned: number;
  readonly running: number | null;
  readonly kept: number | null;
}

type Boards = Pick<Model, 'board' | 'nudges' | 'open'>;

/** Every dial of the sites in the order of the layout. `board`: of one board only. */
export function timesOf(model: Boards, board: string | null = null): DialTimes[] {
  const sites = model.open.value.sites.filter((site) => board === null || site.board === board);
  return sites.flatMap((site) => site.names.dials.map((_, dial) => dialTimes(model, site, dial)));
}

export function dialTimes(model: Boards, site: OpenSite, dial: number): DialTimes {
  const board = model.board(site.board);
  const place = { board: site.board, site: site.number, dial };
  return {
    site,
    dial,
    id: site.names.dials[dial]?.id ?? '',
    name: site.names.dials[dial]?.name ?? '',
    planned: site.binding.dials[dial] ?? 0,
    running: board.runsLayout.value ? model.nudges.value(place) : null,
    kept: board.state.value.keptDials?.[site.number]?.[dial] ?? null,
  };
}

/** A time differs from the one that runs; while nothing runs, kept from planned. */
export function differs({ planned, running, kept }: DialTimes): boolean {
  if (running === null) return kept !== null && kept !== planned;
  return running !== planned || (kept !== null && kept !== running);
}

/** "+2.0 s", "−0.5 s"; seconds at all lengths, so that two can be compared at a glance. */
export function signed(ms: number): string {
  const seconds = (Math.abs(ms) / 1000).toFixed(ms % 100 === 0 ? 1 : 2);
  return `${ms < 0 ? '−' : '+'}${seconds} s`;
}
