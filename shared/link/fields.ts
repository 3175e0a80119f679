/** Fields of answers and events, read strictly one after the other. */
import { fine, misunderstood, type Result } from './result.ts';
import { type DEEDS, type FLAGS, MASTERS, type SITE_FLAGS } from './vocabulary.ts';

export type Master = (typeof MASTERS)[number];
export type FlagKey = (typeof FLAGS)[number]['key'];
export type DeedKey = (typeof DEEDS)[number]['key'];
export type SiteFlagKey = (typeof SITE_FLAGS)[number]['key'];

/** Remembers the first field that is not as it should be; `finish` tells. */
export class Fields {
  readonly #fields: readonly string[];
  #at = 0;
  #wrong: string | null = null;

  constructor(fields: readonly string[]) {
    this.#fields = fields;
  }

  #next(name: string, form: RegExp): string | null {
    const field = this.#fields[this.#at];
    this.#at += 1;
    if (field !== undefined && form.test(field)) return field;
    this.#wrong ??= field === undefined ? `${name} is missing` : `${name} is "${field}"`;
    return null;
  }

  text(name: string): string {
    return this.#next(name, /./) ?? '';
  }

  decimal(name: string): number {
    return Number(this.#next(name, /^\d{1,10}$/) ?? 0);
  }

  /** As `decimal`, or null for `-`. */
  decimalOrNone(name: string): number | null {
    const field = this.#next(name, /^(\d{1,10}|-)$/);
    return field === null || field === '-' ? null : Number(field);
  }

  /** 0, 1, or null for `-`. */
  levelOrNone(name: string): 0 | 1 | null {
    const field = this.#next(name, /^[01-]$/);
    return field === null || field === '-' ? null : field === '1' ? 1 : 0;
  }

  signed(name: string): number {
    return Number(this.#next(name, /^-?\d{1,10}$/) ?? 0);
  }

  /** A hexadecimal number of so many digits. */
  hex(name: string, digits: number): number {
    return Number.parseInt(this.#next(name, new RegExp(`^[0-9A-F]{${digits}}$`)) ?? '0', 16);
  }

  /** As `hex`, or null for `-`. */
  hexOrNone(name: string, digits: number): number | null {
    const field = this.#next(name, new RegExp(`^([0-9A-F]{${digits}}|-)$`));
    return field === null || field === '-' ? null : Number.parseInt(field, 16);
  }

  /** Bytes in hexadecimal; none for `-`. */
  bytes(name: string): Uint8Array {
    const field = this.#next(name, /^(([0-9A-F]{2})+|-)$/) ?? '-';
    return fromHex(field);
  }

  /** Bits in hexadecimal, bit 0 in the last digit: four for each digit. */
  bits(name: string): boolean[] {
    const digits = [...(this.#next(name, /^[0-9A-F]+$/) ?? '')].reverse();
    return digits.flatMap((digit) => [1, 2, 4, 8].map((bit) => (Number.parseInt(digit, 16) & bit) !== 0));
  }

  master(name: string): Master {
    const word = this.text(name);
    const master = MASTERS.find((known) => known === word);
    if (master === undefined) this.#wrong ??= `${name} is "${word}"`;
    return master ?? 'run';
  }

  /** The keys of the flags that are set. */
  flags<K extends string>(name: string, table: readonly { readonly bit: number; readonly key: K }[]): Set<K> {
    const value = this.hex(name, 2);
    return new Set(table.filter(({ bit }) => value & (1 << bit)).map(({ key }) => key));
  }

  /** The value when all fields were as they should be and none is left over. */
  finish<T>(value: T, mayBeLonger = false): Result<T> {
    if (this.#wrong !== null) return misunderstood(this.#wrong);
    const extra = this.#fields.length - this.#at;
    return extra > 0 && !mayBeLonger ? misunderstood(`${extra} fields too many`) : fine(value);
  }
}

/** Bytes as hexadecimal digits, `-` for none. */
export function toHex(bytes: Iterable<number>): string {
  const text = [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');
  return text || '-';
}

/** The bytes of hexadecimal digits that have been checked. */
export function fromHex(text: string): Uint8Array {
  return Uint8Array.from(text.match(/[0-9A-F]{2}/g) ?? [], (digits) => Number.parseInt(digits, 16));
}
