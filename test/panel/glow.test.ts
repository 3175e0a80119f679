/** The glow on the screen and the pins of the emulated chip, change by change: an hour of board time in the soak, a share of it in the suite. */
import { afterEach, expect, test } from 'vitest';
import type { LevelChange } from '../../electron/host/virtual/messages.ts';
import { readDocument } from '../../renderer/model/document.ts';
import { traceTable } from '../../shared/interpreter/trace.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { PENMARROW } from './example.ts';
import { boardSays, openRig, type Rig } from './rig.ts';

const SPAN = Number(process.env.AMBERWICK_GLOW_MINUTES ?? 15) * 60_000;
const CYCLES_A_MS = 16_000;
/** Pins that change within this belong to one change of the lamps, cycles (firmware/PROTOCOL.md: 50 microseconds). */
const TOGETHER = 50 * 16;
/** Changes that show how the clocks of probe and board stand to each other. */
const SAMPLE = 120;

let rig: Rig;
afterEach(() => rig.close());

/** All lamps at once: `x` lit, `.` dark, `?` not known. */
interface Change {
  readonly ms: number;
  readonly picture: string;
}

const table = readDocument({ name: 'penmarrow.json', text: PENMARROW, version: 1 }).boards[0]?.table;

/** Levels of pins, as a probe sees them, to pictures of lamps. */
class Probe {
  readonly changes: Change[] = [];
  readonly #lit: boolean[] = (table?.lamps ?? []).map(() => false);
  #at = Number.NEGATIVE_INFINITY;

  hear(levels: readonly LevelChange[]): void {
    for (const { chain, number, level, cycles } of levels) {
      const lamp = chain ? -1 : (table?.lamps.findIndex(({ output }) => output === number) ?? -1);
      if (lamp < 0) continue;
      this.#lit[lamp] = (level === 1) !== table?.lamps[lamp]?.activeLow;
      const picture = this.#lit.map((isLit) => (isLit ? 'x' : '.')).join('');
      if (cycles - this.#at <= TOGETHER) this.changes.pop();
      else this.#at = cycles;
      this.changes.push({ ms: Math.floor(cycles / CYCLES_A_MS), picture });
    }
  }
}

/**
 * In the page: notes the picture on the screen after every change of it, with
 * the board time of the message that made it. A report of everything at once
 * (after a gap on a line that was too full) begins a new stretch.
 */
function watchScreen(lamps: number): void {
  const stretches: Change[][] = [[]];
  let ms = 0;
  const Native = window.WebSocket;
  window.WebSocket = class extends Native {
    constructor(address: string | URL) {
      super(address);
      this.addEventListener('message', ({ data }) => {
        const { name, data: told } = JSON.parse(String(data));
        if (name === 'lamps') ms = told.ms;
        if (name === 'live') stretches.push([]);
      });
    }
  };
  const draw = (): string =>
    Array.from({ length: lamps }, (_, index) => {
      const look = document.querySelector(`.lamp[data-lamp="town ${index}"]`)?.getAttribute('data-look');
      return look === 'lit' ? 'x' : look === 'dark' ? '.' : '?';
    }).join('');
  addEventListener('DOMContentLoaded', () => {
    new MutationObserver(() => stretches.at(-1)?.push({ ms, picture: draw() })).observe(document.body, {
      attributes: true,
      attributeFilter: ['data-look'],
      subtree: true,
    });
  });
  Object.assign(window, { stretches });
}

/** From the first to the last change of a stretch, ms. */
function spanOf(stretch: readonly Change[]): number {
  return (stretch.at(-1)?.ms ?? 0) - (stretch[1]?.ms ?? 0);
}

/** Board time of the probe less that of the board: the clock of the board starts a moment after its power. */
function offsetOf(probe: readonly Change[], screen: readonly Change[]): number {
  const sample = screen.slice(0, SAMPLE);
  const at = probe.findIndex(({ ms }, first) =>
    sample.every((it, index) => {
      const other = probe[first + index];
      return other?.picture === it.picture && Math.abs(other.ms - ms - (it.ms - (sample[0]?.ms ?? 0))) <= 1;
    }),
  );
  expect(at).toBeGreaterThanOrEqual(0);
  return (probe[at]?.ms ?? 0) - (sample[0]?.ms ?? 0);
}

/**
 * A board may show its first lamps in the tick in which it starts (firmware/PROTOCOL.md, Start), the reference shows
 * them in the next; so what is one tick apart there may be one change here.
 */
function changesInSpan(board: BoardTable): number {
  const times = [...new Set(traceTable(board, SPAN).map(({ ms }) => ms))];
  return times.filter((ms, at) => at === 0 || ms - (times[at - 1] ?? 0) > 1).length;
}

test('the glow on the screen equals the lamps at the pins at every change', async () => {
  if (!table) throw new Error('no table');
  const probe = new Probe();
  rig = await openRig({
    onLevels: (_, changes) => probe.hear(changes),
    prepare: (page) => page.addInitScript(watchScreen, table.lamps.length),
  });
  const { page } = rig;
  await boardSays(page, 'runs this layout, kept');
  await page.getByRole('button', { name: /^Town board/ }).click();
  await page.getByLabel('Speed').selectOption('50');

  const stretches = () =>
    page.evaluate(() => (window as unknown as { stretches: { ms: number; picture: string }[][] }).stretches);
  const before = (await stretches()).length;
  const newest = async () => (await stretches()).at(-1) ?? [];
  await expect.poll(async () => spanOf(await newest()), { timeout: 900_000, interval: 2_000 }).toBeGreaterThan(SPAN);

  // Nothing had to be asked again: the time is one stretch, told change by change.
  expect(await stretches()).toHaveLength(before);
  // The first picture is that of the report; from the next on each change is one event.
  const screen = (await newest()).slice(1);
  const offset = offsetOf(probe.changes, screen);
  const from = (screen[0]?.ms ?? 0) + offset - 1;
  const to = (screen.at(-1)?.ms ?? 0) + offset + 1;
  const pins = probe.changes.filter(({ ms }) => ms >= from && ms <= to);
  expect(screen.map(({ picture }) => picture)).toEqual(pins.map(({ picture }) => picture));
  const late = screen.filter(({ ms }, at) => Math.abs((pins[at]?.ms ?? 0) - offset - ms) > 1);
  expect(late).toEqual([]);
  // As many changes as the reference interpreter makes of the same table in that time, but for those at the ends.
  expect(screen.length).toBeGreaterThan(changesInSpan(table) - 3);
  expect(rig.complaints).toEqual([]);
}, 1_200_000);
