import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { placeWindow, readWindowState, type WindowState, writeWindowState } from '../../electron/shell/window-state.ts';
import { StandInWindow, screen } from './stand-in.ts';

vi.mock('electron', () => import('./stand-in.ts'));

const DESK = { x: 0, y: 0, width: 1920, height: 1040 };
const LEFT = { x: -2560, y: -200, width: 2560, height: 1400 };
const plain = { maximised: false, fullScreen: false };

describe('where the window goes', () => {
  it('the first time to the middle, as large as it likes or the display has', () => {
    expect(placeWindow(null, [DESK])).toEqual({ x: 240, y: 70, width: 1440, height: 900, ...plain });
    const small = { x: 0, y: 30, width: 1280, height: 690 };
    expect(placeWindow(null, [small])).toEqual({ ...small, ...plain });
  });

  it('back to its place, on whichever display that is', () => {
    const saved: WindowState = { x: -2000, y: 100, width: 1200, height: 800, maximised: true, fullScreen: false };
    expect(placeWindow(saved, [DESK, LEFT])).toEqual(saved);
  });

  it('to the first display when its own is gone, in its own size', () => {
    const saved = { x: -2000, y: 100, width: 1200, height: 800, maximised: true, fullScreen: false };
    expect(placeWindow(saved, [DESK])).toEqual({
      x: 360,
      y: 120,
      width: 1200,
      height: 800,
      maximised: true,
      fullScreen: false,
    });
  });

  it('whole into its display when it hangs over an edge or the display is smaller now', () => {
    const over = { x: 1500, y: 700, width: 1200, height: 800, ...plain };
    expect(placeWindow(over, [DESK])).toEqual({ x: 720, y: 240, width: 1200, height: 800, ...plain });
    const huge = { x: 10, y: 10, width: 5000, height: 3000, ...plain };
    expect(placeWindow(huge, [DESK])).toEqual({ ...DESK, ...plain });
  });

  it('to the middle when no hand would find its bar', () => {
    for (const [x, y] of [
      [1900, 100],
      [-1190, 100],
      [100, 1030],
      [100, -500],
    ] as const) {
      const placed = placeWindow({ x, y, width: 1200, height: 800, ...plain }, [DESK]);
      expect(placed).toEqual({ x: 360, y: 120, width: 1200, height: 800, ...plain });
    }
  });

  it('never smaller than the panel can be used in', () => {
    expect(placeWindow({ x: 5, y: 5, width: 1, height: 1, ...plain }, [DESK])).toMatchObject({
      width: 960,
      height: 600,
    });
  });
});

describe('what is remembered', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'amberwick-window-'));
    StandInWindow.all.length = 0;
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('is read again, and what cannot be read is as if it were not there', () => {
    const file = join(folder, 'data', 'window.json');
    expect(readWindowState(file)).toBe(null);
    const state = { x: 1, y: 2, width: 1000, height: 700, maximised: false, fullScreen: true };
    writeWindowState(file, state);
    expect(readWindowState(file)).toEqual(state);
    for (const text of ['', '{', '[]', 'null', '{"x":1}', '{"x":1e400,"y":0,"width":1,"height":1}']) {
      writeFileSync(file, text);
      expect(readWindowState(file)).toBe(null);
    }
  });

  it('costs nothing where the disk takes nothing', () => {
    writeFileSync(join(folder, 'data'), 'a file, not a folder');
    const state = { x: 1, y: 2, width: 1000, height: 700, ...plain };
    expect(() => writeWindowState(join(folder, 'data', 'window.json'), state)).not.toThrow();
  });

  it('is how the window stood when it was closed', async () => {
    const { openWindow, bringForward } = await import('../../electron/shell/window.ts');
    const file = join(folder, 'window.json');
    const first = openWindow('preload.cjs', file) as unknown as StandInWindow;
    expect(first.bounds).toEqual({ x: 240, y: 70, width: 1440, height: 900 });
    expect(existsSync(file)).toBe(false);
    first.bounds = { x: 300, y: 40, width: 1100, height: 750 };
    first.maximised = true;
    first.emit('close');
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual({ ...first.bounds, maximised: true, fullScreen: false });
    const second = openWindow('preload.cjs', file) as unknown as StandInWindow;
    expect([second.bounds, second.maximised]).toEqual([first.bounds, false]);
    second.emit('ready-to-show');
    expect([second.maximised, second.shown]).toEqual([true, true]);
    second.minimised = true;
    bringForward(second as never);
    expect([second.minimised, second.focused]).toEqual([false, 1]);
    expect(() => bringForward(null)).not.toThrow();
  });

  it('counts from the primary display, in whatever order they are told', async () => {
    const { openWindow } = await import('../../electron/shell/window.ts');
    screen.displays.push({ id: 2, workArea: LEFT });
    const window = openWindow('preload.cjs', join(folder, 'window.json')) as unknown as StandInWindow;
    screen.displays.pop();
    expect(window.bounds).toEqual({ x: 240, y: 70, width: 1440, height: 900 });
  });
});
