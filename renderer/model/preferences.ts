/** What the person likes on this computer; never part of the layout. */
import { type Signal, signal } from '@preact/signals';

export type Theme = 'dark' | 'light';
/** How far away the person stands. */
export type Distance = 'room' | 'layout' | 'desk';

export const DISTANCES: readonly Distance[] = ['room', 'layout', 'desk'];

/** The part of a browser's storage that is used. */
export interface Store {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

export interface Preferences {
  readonly theme: Signal<Theme>;
  readonly distance: Signal<Distance>;
  /** Shortcuts of a single key, which speech control can set off by mistake. */
  readonly singleKeys: Signal<boolean>;
  /** The cautions of the first start have been read. */
  readonly welcomed: Signal<boolean>;
  /** Who answers in a lamp check. */
  readonly checker: Signal<string>;
  /** What the lamp check under way is about. */
  readonly checkScope: Signal<string>;
  /** Seconds for each lamp when a check steps by itself. */
  readonly checkBeat: Signal<string>;
  /** A tone at each of its steps. */
  readonly checkTone: Signal<boolean>;
  /** What is dragged on the plan snaps to roads, right angles and a grid of so many mm. */
  readonly snap: Signal<boolean>;
  readonly grid: Signal<string>;
  /** How each layout was looked at last, JSON. */
  readonly planViews: Signal<string>;
  /** The two dials of each site that are shown across the room, JSON. */
  readonly roomDials: Signal<string>;
  /** Layouts whose picture under the plan is hidden, JSON. */
  readonly hiddenPictures: Signal<string>;
  /** What the two sets of times are about, and the sets themselves, JSON. */
  readonly setScope: Signal<'site' | 'board'>;
  readonly timeSets: Signal<string>;
  /** Ids of what was chosen last in the command finder. */
  readonly recent: Signal<string>;
}

export function createPreferences(store: Store): Preferences {
  return {
    // Whatever the computer likes: this one stands in a dim room.
    theme: kept<Theme>(store, 'theme', ['dark', 'light']),
    distance: kept<Distance>(store, 'distance', ['layout', 'room', 'desk']),
    singleKeys: flag(store, 'single-keys', true),
    welcomed: flag(store, 'welcomed', false),
    checker: text(store, 'checker', ''),
    checkScope: text(store, 'check-scope', ''),
    checkBeat: kept(store, 'check-beat', ['5', '3', '4', '6', '8', '10']),
    checkTone: flag(store, 'check-tone', false),
    snap: flag(store, 'snap', true),
    grid: kept(store, 'grid', ['25', '5', '10', '50', '100']),
    planViews: text(store, 'plan-views', '{}'),
    roomDials: text(store, 'room-dials', '{}'),
    hiddenPictures: text(store, 'hidden-pictures', '{}'),
    setScope: kept<'site' | 'board'>(store, 'set-scope', ['site', 'board']),
    timeSets: text(store, 'time-sets', '{}'),
    recent: text(store, 'recent', ''),
  };
}

/** A signal that outlives the window; the first choice is the default. */
function kept<T extends string>(store: Store, key: string, choices: readonly [T, ...T[]]): Signal<T> {
  const found = choices.find((choice) => choice === read(store, key)) ?? choices[0];
  const value = signal<T>(found);
  value.subscribe((now) => write(store, key, now));
  return value;
}

function text(store: Store, key: string, usual: string): Signal<string> {
  const value = signal(read(store, key) ?? usual);
  value.subscribe((now) => write(store, key, now));
  return value;
}

function flag(store: Store, key: string, usual: boolean): Signal<boolean> {
  const found = read(store, key);
  const value = signal(found === null ? usual : found === 'yes');
  value.subscribe((now) => write(store, key, now ? 'yes' : 'no'));
  return value;
}

// Storage may be forbidden in a browser; the panel works without.
function read(store: Store, key: string): string | null {
  try {
    return store.getItem(`amberwick ${key}`);
  } catch {
    return null;
  }
}

function write(store: Store, key: string, value: string): void {
  try {
    store.setItem(`amberwick ${key}`, value);
  } catch {
    // As above.
  }
}
