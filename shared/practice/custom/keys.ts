/** Which values of a practice an owner can change, found by walking through all practices. */
import type { Fact, Practice, TimeRule } from '../practice.ts';
import { PRACTICES } from '../practices.ts';

export type KeyKind = 'time' | 'metres' | 'metres-a-second' | 'yes-no' | 'choice';

/** One value that can be changed. */
export interface ChangeKey {
  /** Such as `junction.amber`. */
  readonly key: string;
  readonly kind: KeyKind;
  /** Of a choice. */
  readonly choices: readonly string[];
  /** Null may be written: some practice has no such thing. */
  readonly optional: boolean;
  /** A time of zero means something. */
  readonly zero: boolean;
  /** The value in the first practice that has it: its names and limits serve where the own practice has none. */
  readonly model: TimeRule | Fact<unknown>;
}

const ASPECTS = ['red', 'green', 'amber', 'dark', 'flashing-red', 'flashing-amber'];
const CLEARANCES = ['blackout', 'flashing-red', 'flashing-green', 'red'];
const CHOICES: Readonly<Record<string, readonly string[]>> = {
  drives: ['left', 'right'],
  fault: ASPECTS,
  safe: ASPECTS,
  idle: ['red', 'dark', 'flashing-amber'],
  shows: CLEARANCES,
  pedestrianClearance: CLEARANCES,
  reds: ['alternating', 'steady'],
};

const UNITS: Readonly<Record<string, KeyKind>> = {
  minGreen: 'time',
  walkingSpeed: 'metres-a-second',
  longest: 'metres',
};

export function isTimeRule(value: unknown): value is TimeRule {
  return typeof value === 'object' && value !== null && 'usual' in value && 'dial' in value;
}

export function isFact(value: unknown): value is Fact<unknown> {
  return typeof value === 'object' && value !== null && 'confidence' in value && 'value' in value;
}

/** By key, in the order of the practices' fields. */
export const CHANGE_KEYS: ReadonlyMap<string, ChangeKey> = collect();

function collect(): Map<string, ChangeKey> {
  const keys = new Map<string, ChangeKey>();
  for (const key of PRACTICES.flatMap(placesOf)) {
    if (keys.has(key)) continue;
    const values = PRACTICES.map((practice) => valueAt(practice, key));
    const found = describe(key, values);
    if (found !== null) keys.set(key, found);
  }
  return keys;
}

/** `drives`, `junction.amber`, ...: everything one or two steps down that is an object or null. */
function placesOf(practice: Practice): string[] {
  return Object.entries(practice).flatMap(([kind, rules]) => {
    if (typeof rules !== 'object') return [];
    if (isFact(rules)) return [kind];
    return Object.keys(rules).map((field) => `${kind}.${field}`);
  });
}

export function valueAt(practice: Practice, key: string): unknown {
  return key.split('.').reduce<unknown>((value, step) => (value as Record<string, unknown>)[step], practice);
}

function describe(key: string, values: readonly unknown[]): ChangeKey | null {
  const model = values.find((value) => isTimeRule(value) || isFact(value));
  const kind = isTimeRule(model) ? 'time' : isFact(model) ? factKind(key, model) : null;
  if (kind === null || !(isTimeRule(model) || isFact(model))) return null;
  return {
    key,
    kind,
    choices: CHOICES[fieldOf(key)] ?? [],
    optional: values.some((value) => value === null),
    zero: values.some((value) => isTimeRule(value) && mayBeZero(value)),
    model,
  };
}

/** Null for lists and pairs, which have no single value to write. */
function factKind(key: string, { value }: Fact<unknown>): KeyKind | null {
  if (typeof value === 'boolean') return 'yes-no';
  if (typeof value === 'number') return UNITS[fieldOf(key)] ?? null;
  return typeof value === 'string' && fieldOf(key) in CHOICES ? 'choice' : null;
}

function fieldOf(key: string): string {
  return key.split('.').at(-1) ?? key;
}

function mayBeZero({ usual, dial, range }: TimeRule): boolean {
  return usual.value === 0 || dial.value[0] === 0 || range?.value[0] === 0;
}
