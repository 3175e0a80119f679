/** `amberwick nudge SITE DIAL TIME`: one time of a running site, by names with a layout and by numbers without. */
import { requestProblem } from '../../electron/host/service/failures.ts';
import { ask } from '../../shared/link/requests.ts';
import { imageShape } from '../../shared/table/shape.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { type Meant, type PortOptions, withBoard } from './connect.ts';
import { findSite, type LoadedBoard, loadGood } from './load.ts';
import type { Report } from './output.ts';
import { readTime } from './times.ts';

export interface NudgeOptions extends PortOptions {
  readonly layout?: string;
}

interface Target {
  readonly site: number;
  readonly dial: number;
  /** As a person reads it. */
  readonly name: string;
  readonly meant: Meant | null;
  /** Table hash that the board must have for these numbers to mean this. */
  readonly shape: number | null;
}

type TargetResult = { readonly ok: true; readonly target: Target } | { readonly ok: false; readonly report: Report };

export async function nudge(site: string, dial: string, time: string, options: NudgeOptions): Promise<Report> {
  const ms = readTime(time);
  if (ms === null) return misread(`"${time}" is no time.`, 'Write seconds, such as 18, 18.5s or 1:05.');
  const found = options.layout === undefined ? byNumber(site, dial) : byName(site, dial, options.layout);
  if (!found.ok) return found.report;
  const { target } = found;
  return withBoard(options, target.meant, async ({ session, who }): Promise<Report> => {
    if (target.shape !== null && who.shape !== target.shape) {
      return { exit: 1, problem: describeProblem('otherTable', { port: options.port }) };
    }
    const before = await session.request(ask.dial(target.site, target.dial));
    if (!before.ok) return { exit: 1, problem: requestProblem(before.error, { port: options.port }) };
    const after = await session.request(ask.dial(target.site, target.dial, ms));
    if (!after.ok) return { exit: 1, problem: requestProblem(after.error, { port: options.port }) };
    return {
      exit: 0,
      data: { site: target.site, dial: target.dial, from: before.value, to: after.value },
      text: [`Changed ${target.name} from ${timeText(before.value)} to ${timeText(after.value)}; not kept.`],
    };
  });
}

function byNumber(site: string, dial: string): TargetResult {
  if (!/^\d{1,3}$/.test(site) || !/^\d{1,2}$/.test(dial)) {
    const report = misread('Names of sites and dials need the layout.', 'Add --layout FILE, or give their numbers.');
    return { ok: false, report };
  }
  const name = `site ${site}, dial ${dial}`;
  return { ok: true, target: { site: Number(site), dial: Number(dial), name, meant: null, shape: null } };
}

function byName(site: string, dial: string, file: string): TargetResult {
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded;
  const { boards } = loaded.value;
  const board = boards.find((one) => findSite(one, site) !== null);
  const index = board ? (findSite(board, site) ?? 0) : 0;
  const place = board?.sites[index];
  if (!board || !place) {
    const ids = boards.flatMap((one) => one.sites.map((each) => each.id)).join(', ');
    return { ok: false, report: misread(`The layout has no site "${site}".`, `Its sites are ${ids}.`) };
  }
  const number = place.dials.findIndex((one, at) => one.id === dial || one.name === dial || String(at) === dial);
  const named = place.dials[number];
  if (!named) {
    const ids = place.dials.map((one) => one.id).join(', ');
    return { ok: false, report: misread(`${place.name} has no dial "${dial}".`, `Its dials are ${ids}.`) };
  }
  return { ok: true, target: targetOf(board, index, number, `${place.name}, ${named.name}`) };
}

function targetOf(board: LoadedBoard, site: number, dial: number, name: string): Target {
  const shape = board.image ? imageShape(board.image) : null;
  return { site, dial, name, meant: { board: board.id, chip: board.table.chip }, shape };
}

function misread(what: string, next: string): Report {
  return { exit: 2, problem: { code: 'misread', what, why: 'The command could not be understood.', next } };
}
