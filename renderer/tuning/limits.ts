/** Limits of one time set against the practice's, with a reason; and taken back. */
import type { TimeLimit } from '../../shared/layout/limits.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { leastStays } from '../../shared/signals/own-limits.ts';
import { dialBounds } from '../../shared/signals/raw-dials.ts';
import { dialName } from '../../shared/workbench/dial-name.ts';
import { timeText } from '../../shared/workbench/words.ts';
import type { OpenSite } from '../model/document.ts';
import type { Model } from '../model/model.ts';
import { readTime } from '../model/time.ts';

/** As typed. */
export interface LimitDraft {
  readonly least: string;
  readonly greatest: string;
  readonly reason: string;
}

/** The limits that a draft asks for, ms; else what is wrong with it, in one sentence. */
export function readLimits(
  site: OpenSite,
  dial: number,
  draft: LimitDraft,
): { readonly min: number; readonly max: number; readonly reason: string } | { readonly wrong: string } {
  const [limits, names] = [site.program.dials[dial], site.names.dials[dial]];
  const planned = site.binding.dials[dial] ?? 0;
  if (!limits || !names) return { wrong: 'This time is there no more.' };
  const [least, greatest] = [readTime(draft.least), readTime(draft.greatest)];
  if ('wrong' in least) return { wrong: `Least: ${least.wrong}` };
  if ('wrong' in greatest) return { wrong: `Greatest: ${greatest.wrong}` };
  const [min, max] = [least.ms, greatest.ms];
  const board = dialBounds(dial, site.program.rows, site.program.flash);
  // Without the owner's own limits.
  const usual = names.owner ?? limits;
  const stays = leastStays(names);
  if (min > max) return { wrong: 'The least is longer than the greatest. Exchange the two.' };
  if (stays !== null && min < usual.min) return { wrong: `The least cannot be below ${timeText(usual.min)}. ${stays}` };
  if (min < board.least) return { wrong: `The board times nothing shorter than ${timeText(board.least)} here.` };
  if (max > board.greatest) return { wrong: `The board times nothing longer than ${timeText(board.greatest)} here.` };
  if (planned < min || planned > max)
    return { wrong: `The planned time is ${timeText(planned)}; it has to lie between the two.` };
  const reason = draft.reason.trim();
  if (reason === '') return { wrong: 'Write a reason. In five years somebody will ask.' };
  return { min, max, reason };
}

/** False when the draft was wrong or the host refused it. One step of undo; the log has it as a limit. */
export async function setLimits(
  model: Model,
  site: OpenSite,
  dial: number,
  wanted: { readonly min: number; readonly max: number; readonly reason: string },
): Promise<boolean> {
  const { layout } = model.open.value;
  const id = site.names.dials[dial]?.id;
  if (!layout || id === undefined) return false;
  const limit = { least: wanted.min / 1000, greatest: wanted.max / 1000, reason: wanted.reason };
  const what = `Set the limits of ${dialName(site.names, dial)} to ${timeText(wanted.min)} and ${timeText(wanted.max)}: ${wanted.reason}`;
  return model.change(writeLayout(withLimit(layout, site.id, id, limit)), ended(what), 'limit');
}

export async function takeLimitsBack(model: Model, site: OpenSite, dial: number): Promise<boolean> {
  const { layout } = model.open.value;
  const named = site.names.dials[dial];
  if (!layout || !named?.owner) return false;
  const { min, max } = named.owner;
  const what = `Took the limits of ${dialName(site.names, dial)} back to ${timeText(min)} and ${timeText(max)}.`;
  return model.change(writeLayout(withLimit(layout, site.id, named.id, null)), what, 'limit');
}

function withLimit(layout: Layout, siteId: string, dial: string, limit: TimeLimit | null): Layout {
  return {
    ...layout,
    sites: layout.sites.map((site) => {
      if (site.id !== siteId) return site;
      const { limits = {}, ...rest } = site;
      const { [dial]: _, ...others } = limits;
      const next = limit === null ? others : { ...others, [dial]: limit };
      return Object.keys(next).length === 0 ? (rest as typeof site) : { ...site, limits: next };
    }),
  };
}

function ended(text: string): string {
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}
