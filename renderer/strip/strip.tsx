import { useComputed, useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { timeText } from '../../shared/workbench/words.ts';
import type { BoardModel } from '../model/board.ts';
import { since } from '../model/clock.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { runningOf } from '../model/running.ts';
import { type Bar, cursorAt, type Lane, type Strip, stripOf } from './bars.ts';

const LANE = 34;
const NAMES = 150;
const AXIS = 26;
/** Longest name of a lane, characters. */
const NAME = 18;

/** The cycle of the site at hand with a cursor where it is now. */
export function PhaseStrip({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const board = model.board(site.board);
  const frame = useRef<HTMLDivElement>(null);
  const width = useSignal(760);
  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = (): void => {
      if (element.clientWidth > 0) width.value = element.clientWidth;
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [width]);

  const dials = site.names.dials.map(
    (_, dial) => model.nudges.value({ board: site.board, site: site.number, dial }) ?? site.binding.dials[dial] ?? 0,
  );
  const strip = stripOf(site, dials);
  const scale = (width.value - NAMES - 2) / strip.total;
  const height = strip.lanes.length * LANE + AXIS;
  const cursor = useComputed(() => {
    const at = place(site, board, strip, model.wall.value);
    return at === null ? 'translate(-10 0)' : `translate(${(NAMES + at * scale).toFixed(1)} 0)`;
  });
  return (
    <div class="strip" ref={frame}>
      <p class="strip-title">
        {site.names.name}: {strip.isFlash ? 'two flashes' : 'cycle'} {timeText(strip.total)}
        {strip.rows.some(({ open }) => open) && ', at least'}
      </p>
      <svg width={width.value} height={height} role="img" aria-label={spoken(site, strip)}>
        <Hatch />
        {strip.lanes.map((lane, at) => (
          <LaneBars key={lane.label} lane={lane} y={at * LANE} scale={scale} />
        ))}
        <Axis strip={strip} scale={scale} y={strip.lanes.length * LANE} />
        <g class="cursor" transform={cursor}>
          <rect x={-3.5} y={-3} width={7} height={height - AXIS + 9} rx={3.5} />
          <rect x={-1.5} y={-1} width={3} height={height - AXIS + 5} rx={1.5} />
        </g>
      </svg>
    </div>
  );
}

/** Ms from the left; null while nothing runs. */
function place(site: OpenSite, board: BoardModel, strip: Strip, wall: number): number | null {
  const running = runningOf(site, board, wall);
  if (running.is === 'timed' || running.is === 'open') return cursorAt(strip, running.row, running.elapsed);
  if (running.is !== 'flashing' || !strip.isFlash) return null;
  // The board does not tell where a flash stands; the lamp that was lit first in it does.
  const first = site.names.lamps[0];
  const lit = first ? board.litAt(first.index) : null;
  return lit === null ? null : Math.max(0, since(board.clock.at(wall), lit)) % strip.total;
}

/** Aspects by thickness and pattern: colours are for lamps. */
function LaneBars({ lane, y, scale }: { readonly lane: Lane; readonly y: number; readonly scale: number }) {
  return (
    <g transform={`translate(0 ${y})`}>
      <text class="lane-name" x={0} y={LANE / 2} dy="0.35em">
        <title>{lane.label}</title>
        {lane.label.length > NAME ? `${lane.label.slice(0, NAME - 1)}…` : lane.label}
      </text>
      {lane.bars.map((bar, at) => (
        <BarShape key={at} bar={bar} scale={scale} />
      ))}
    </g>
  );
}

/** Room for one letter, px. */
const LETTER = 11;
const LETTERS: Readonly<Record<string, string>> = {
  red: 'R',
  amber: 'A',
  green: 'G',
  white: 'W',
  yellow: 'Y',
  blue: 'B',
};

function BarShape({ bar, scale }: { readonly bar: Bar; readonly scale: number }) {
  const x = NAMES + bar.from * scale;
  const width = Math.max(1, (bar.to - bar.from) * scale - 1);
  const letters = bar.shows
    .split('+')
    .map((colour) => LETTERS[colour] ?? colour.charAt(0).toUpperCase())
    .join('');
  return (
    <g class={`bar ${weight(bar)}`} data-shows={bar.shows}>
      <rect class="bar-ground" x={x} y={4} width={width} height={LANE - 8} />
      <rect class="bar-body" x={x} y={4} width={width} height={LANE - 8} />
      {width > letters.length * LETTER + 2 && (
        <text
          class={width < letters.length * LETTER + 18 ? 'bar-letter narrow' : 'bar-letter'}
          x={width < letters.length * LETTER + 18 ? x + width / 2 : x + 8}
          y={LANE / 2}
          dy="0.35em"
        >
          {letters}
        </text>
      )}
    </g>
  );
}

function weight({ shows }: Bar): string {
  if (shows === '') return 'dark';
  if (shows === 'red') return 'stop';
  if (shows === 'green') return 'go';
  return shows.includes('red') ? 'ready' : 'change';
}

function Axis({ strip, scale, y }: { readonly strip: Strip; readonly scale: number; readonly y: number }) {
  const step = [100, 250, 500, 1000, 2000, 5000, 10_000, 15_000, 30_000, 60_000, 300_000, 900_000].find(
    (ms) => ms * scale >= 66,
  );
  if (step === undefined) return null;
  const marks = Array.from({ length: Math.floor(strip.total / step) + 1 }, (_, at) => at * step);
  return (
    <g class="axis" transform={`translate(${NAMES} ${y})`}>
      {marks.map((ms) => (
        <g key={ms} transform={`translate(${ms * scale} 0)`}>
          <line y1={0} y2={5} />
          {ms * scale < strip.total * scale - 30 && <text y={20}>{timeText(ms)}</text>}
        </g>
      ))}
    </g>
  );
}

function Hatch() {
  return (
    <defs>
      <pattern id="hatch" width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="hatch-line" width={3} height={7} />
      </pattern>
    </defs>
  );
}

function spoken(site: OpenSite, strip: Strip): string {
  const rows = strip.rows.map(({ row, from, to }) => `${site.names.rows[row]?.label ?? ''} ${timeText(to - from)}`);
  return `Cycle of ${site.names.name}: ${rows.join(', ')}`;
}
