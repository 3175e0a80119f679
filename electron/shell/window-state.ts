/** Where the window was, and where it goes: the same place, or a sane one when its display is gone. */
import { z } from 'zod';
import { readJson, writeJson } from '../host/json-file.ts';

const Rectangle = z.object({ x: z.int(), y: z.int(), width: z.int().min(1), height: z.int().min(1) });
const State = z.object({ ...Rectangle.shape, maximised: z.boolean(), fullScreen: z.boolean() });

/** In the pixels of the desktop, which do not know of a display's scale. */
export type Rectangle = z.infer<typeof Rectangle>;
/** Bounds are those of the window when it is neither maximised nor full screen. */
export type WindowState = z.infer<typeof State>;

export const LEAST = { width: 960, height: 600 } as const;
const USUAL = { width: 1440, height: 900 } as const;
/** So much of the window has to be on a display for a hand to find it. */
const GRIP = { width: 200, height: 60 } as const;

/**
 * `areas` are the parts of the displays that windows may use, the primary display first. A window that is still in
 * sight goes back to its place, shrunk to its display; any other is centred on the primary one.
 */
export function placeWindow(saved: WindowState | null, areas: readonly Rectangle[]): WindowState {
  const [primary = { x: 0, y: 0, ...USUAL }] = areas;
  const home = saved && areas.find((area) => holds(area, saved));
  const { maximised = false, fullScreen = false } = saved ?? {};
  if (home) return { ...into(home, saved), maximised, fullScreen };
  const size = sized(primary, saved ?? USUAL);
  const x = primary.x + Math.floor((primary.width - size.width) / 2);
  const y = primary.y + Math.floor((primary.height - size.height) / 2);
  return { x, y, ...size, maximised, fullScreen };
}

/** The bar by which it is dragged is within reach. */
function holds(area: Rectangle, window: Rectangle): boolean {
  const across = Math.min(area.x + area.width, window.x + window.width) - Math.max(area.x, window.x);
  const down = area.y + area.height - window.y;
  return across >= GRIP.width && down >= GRIP.height && window.y >= area.y - 1;
}

function sized(area: Rectangle, wanted: { readonly width: number; readonly height: number }) {
  const width = Math.min(area.width, Math.max(LEAST.width, wanted.width));
  const height = Math.min(area.height, Math.max(LEAST.height, wanted.height));
  return { width, height };
}

function into(area: Rectangle, window: Rectangle): Rectangle {
  const size = sized(area, window);
  const x = Math.min(Math.max(window.x, area.x), area.x + area.width - size.width);
  const y = Math.min(Math.max(window.y, area.y), area.y + area.height - size.height);
  return { x, y, ...size };
}

/** Null when there is none, or none that can be read. */
export function readWindowState(file: string): WindowState | null {
  return readJson(file, State);
}

/** A disk that takes nothing costs no more than the place of the window. */
export function writeWindowState(file: string, state: WindowState): void {
  try {
    writeJson(file, state);
  } catch {
    // The next start uses the place of before.
  }
}
