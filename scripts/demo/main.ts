/**
 * `npm start` without a panel: Penmarrow on the virtual board, in the terminal.
 * The same layout file, protocol and firmware image as on a real board.
 */
import { readFileSync } from 'node:fs';
import { systemClock } from '../../electron/host/clock.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { ask } from '../../shared/link/requests.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { picture, type SiteNow } from './picture.ts';

const EXAMPLE = new URL('../../shared/layout/examples/penmarrow.json', import.meta.url);
const FRAME_MS = 200;
/** Without a terminal nobody can press q. */
const SECONDS_WITHOUT_TERMINAL = 10;

/** Runs until q, Ctrl-C or the end of `--seconds N`; returns the exit code. */
export async function main(args: readonly string[]): Promise<number> {
  const at = args.indexOf('--seconds');
  const given = at < 0 ? null : Number(args[at + 1]);
  if (given !== null && !(given > 0)) return say('--seconds needs a number above zero.');
  const seconds = given ?? (process.stdin.isTTY ? null : SECONDS_WITHOUT_TERMINAL);

  const { layout } = parseLayout(readFileSync(EXAMPLE, 'utf8'));
  const [board] = layout ? compileLayout(layout).boards : [];
  const image = board ? encodeTable(board.table).bytes : null;
  if (!layout || !board || !image) return say('The example has mistakes: run `npm run amberwick -- check` on it.');
  const shipped = loadImage(board.table.chip);
  if (!shipped.ok) return say(`The firmware image cannot be used: ${shipped.error}.`);

  const live = new LiveBoard({ chip: board.table.chip, flash: shipped.flash });
  const session = new BoardSession(live, { clock: systemClock });
  live.power(true);
  try {
    const greeting = await session.greet();
    if (!greeting.ok) return say('The virtual board does not answer.');
    const { firmware, chip } = greeting.value;
    console.log(`${layout.name} on the virtual board (${chip}, firmware ${firmware}). q quits.\n`);
    const show = follow(session, board);
    await session.request(ask.tell(true));
    const running = await upload(session, image);
    if (!running.ok) return say('The virtual board did not take the example.');
    await showUntilEnd(show, session, seconds);
    return 0;
  } finally {
    await session.close();
  }
}

/** Keeps what the board tells; the result draws it. */
function follow(session: BoardSession, board: CompiledBoard): () => string[] {
  const sites: (SiteNow | null)[] = board.sites.map(() => null);
  let lit: readonly boolean[] = [];
  let clock = { ms: 0, at: performance.now() };
  const tick = (ms: number) => {
    clock = { ms, at: performance.now() };
  };
  session.onBeat((ms) => tick(ms));
  session.onEvent((event) => {
    if ('ms' in event) tick(event.ms);
    if (event.word === 'lamps') lit = event.lit;
    if (event.word === 'row') sites[event.site] = { row: event.row, began: event.ms };
  });
  return () => picture(board, sites, lit, clock.ms + performance.now() - clock.at);
}

async function showUntilEnd(show: () => string[], session: BoardSession, seconds: number | null): Promise<void> {
  let lines = 0;
  const draw = () => {
    const picture = show();
    if (process.stdout.isTTY && lines > 0) process.stdout.write(`\x1b[${lines}A`);
    const clear = process.stdout.isTTY ? '\x1b[2K' : '';
    process.stdout.write(picture.map((line) => `${clear}${line}\n`).join(''));
    lines = picture.length;
    if (!process.stdout.isTTY) process.stdout.write('\n');
  };
  const frames = setInterval(draw, process.stdout.isTTY ? FRAME_MS : 1000);
  const { stdin } = process;
  let onKey: ((key: Buffer) => void) | null = null;
  await new Promise<void>((resolve) => {
    session.onEnd(() => resolve());
    process.once('SIGINT', resolve);
    if (seconds !== null) setTimeout(resolve, seconds * 1000);
    if (!stdin.isTTY) return;
    stdin.setRawMode(true);
    onKey = (key) => {
      if (key.toString() === 'q' || key[0] === 3) resolve();
    };
    stdin.on('data', onKey);
  });
  clearInterval(frames);
  draw();
  if (onKey) {
    stdin.off('data', onKey);
    stdin.setRawMode(false);
    stdin.pause();
  }
}

function say(text: string): number {
  console.error(text);
  return 1;
}
