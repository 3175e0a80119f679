/** `amberwick watch`: what a board tells while it runs, until Ctrl-C or for so many seconds. */
import { requestProblem } from '../../electron/host/service/failures.ts';
import type { BoardEvent } from '../../shared/link/events.ts';
import { ask } from '../../shared/link/requests.ts';
import { DEEDS } from '../../shared/link/vocabulary.ts';
import { imageShape } from '../../shared/table/shape.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { type PortOptions, withBoard } from './connect.ts';
import { type LoadedBoard, loadGood } from './load.ts';
import type { Console, Report } from './output.ts';

export interface WatchOptions extends PortOptions {
  readonly layout?: string;
  readonly seconds?: string;
  readonly json?: boolean;
}

export async function watch(options: WatchOptions, io: Console): Promise<Report> {
  const seconds = options.seconds === undefined ? null : Number(options.seconds);
  if (seconds !== null && !(seconds > 0)) {
    const words = { what: '--seconds needs a number above zero.', why: 'Nothing would be watched.' };
    return { exit: 2, problem: { code: 'misread', ...words, next: 'Leave it out to watch until Ctrl-C.' } };
  }
  const loaded = options.layout === undefined ? null : loadGood(options.layout);
  if (loaded && !loaded.ok) return loaded.report;
  const boards = loaded?.value.boards ?? [];
  const [first] = boards;
  const meant = first ? { board: first.id, chip: first.table.chip } : null;
  return withBoard(options, meant, async ({ session, who }): Promise<Report> => {
    const board = boards.find(({ image }) => image !== null && imageShape(image) === who.shape) ?? null;
    if (boards.length > 0 && !board) return { exit: 1, problem: describeProblem('otherTable', { port: options.port }) };
    const tell = (event: BoardEvent | { readonly word: 'lost' }) =>
      io.out(options.json ? `${JSON.stringify(event, setsAsLists)}\n` : `${eventText(event, board)}\n`);
    session.onEvent(tell);
    session.onLost(() => tell({ word: 'lost' }));
    const begun = await session.request(ask.tell(true));
    if (!begun.ok) return { exit: 1, problem: requestProblem(begun.error, { port: options.port }) };
    const cause = await ended(session, seconds);
    if (cause !== null) return { exit: 1, problem: describeProblem('cableOut', { port: options.port, detail: cause }) };
    await session.request(ask.tell(false));
    return { exit: 0 };
  });
}

/** Null when the time is up or the user has seen enough; else why the board went away. */
function ended(
  session: { onEnd(listener: (cause: string) => void): void },
  seconds: number | null,
): Promise<string | null> {
  return new Promise((resolve) => {
    session.onEnd(resolve);
    process.once('SIGINT', () => resolve(null));
    if (seconds !== null) setTimeout(() => resolve(null), seconds * 1000);
  });
}

function setsAsLists(_: string, value: unknown): unknown {
  return value instanceof Set ? [...value] : value;
}

function eventText(event: BoardEvent | { readonly word: 'lost' }, board: LoadedBoard | null): string {
  const site = (number: number): string => board?.sites[number]?.name ?? `site ${number}`;
  const at = 'ms' in event ? (event.ms / 1000).toFixed(3).padStart(10) : ''.padStart(10);
  switch (event.word) {
    case 'hello':
      return `${at}  The board has started (${event.cause}).`;
    case 'lamps':
      return `${at}  lit: ${litText(event.lit, board) || 'none'}`;
    case 'row':
      return `${at}  ${site(event.site)}: ${board?.sites[event.site]?.rows[event.row]?.label ?? `row ${event.row}`}`;
    case 'demand':
      return `${at}  A demand at ${board?.table.inputs[event.input]?.name ?? `input ${event.input}`}.`;
    case 'fault':
      if (event.fault === 'none') return `${at}  ${site(event.site)} came back from its fault aspect.`;
      return `${at}  ${site(event.site)} went to its fault aspect: ${event.fault}.`;
    case 'gap':
    case 'lost':
      return `${at}  Some events were lost.`;
    case 'alone':
      return `${at}  The board heard nothing and stopped telling.`;
    case 'guard':
      return `${at}  ${sentence(DEEDS.find(({ key }) => key === event.deed)?.means ?? 'the guard did something')}.`;
  }
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function litText(lit: readonly boolean[], board: LoadedBoard | null): string {
  return lit.flatMap((isLit, lamp) => (isLit ? [board?.table.lamps[lamp]?.name ?? String(lamp)] : [])).join(', ');
}
