/**
 * The board's EEPROM: a common part with the label and two slots for images.
 * Layout and rules: firmware/PROTOCOL.md, chapter 3.
 */
import { crc8, crc16 } from './crc.ts';
import { CAPACITY, type Chip, STORE_VERSION } from './format.ts';

const MARK = [0x41, 0x77];
const VERSION_AT = 2;
const NAME_AT = 8;
const NAME_BYTES = 16;
const LABEL_CRC_AT = 24;
const RECORD_BYTES = 8;
const RECORDS_AT = 48;
const SLOTS_AT = 64;
/**
 * What a record's CRC-8 is XORed with: so that zeros are no record, and that no version of the store takes the record
 * of another for one of its own.
 */
const recordXor = (version: number): number => (0x59 + version) & 0xff;

/** A slot's number: 0 is slot A, 1 is slot B. */
export type Slot = 0 | 1;

export interface BoardLabel {
  /** Four bytes as 8 upper-case hexadecimal digits. */
  readonly identity: string;
  /** Up to 16 bytes of UTF-8. */
  readonly name: string;
}

export interface StoredImage {
  readonly sequence: number;
  readonly image: Uint8Array;
}

export interface StoreContent {
  readonly label: BoardLabel | null;
  /** What each slot holds that counts, or null. */
  readonly slots: readonly [StoredImage | null, StoredImage | null];
}

/** EEPROM bytes of a chip. */
export function storeSize(chip: Chip): number {
  return SLOTS_AT + 2 * CAPACITY[chip].image;
}

/** First byte of a slot in an EEPROM of `size` bytes. */
export function slotAddress(slot: Slot, size: number): number {
  return SLOTS_AT + (slot * (size - SLOTS_AT)) / 2;
}

/** First byte of the record of a slot. */
export function recordAddress(slot: Slot): number {
  return RECORDS_AT + slot * RECORD_BYTES;
}

/** The eight bytes of the record of an image. */
export function storeRecord({ sequence, image }: StoredImage, version = STORE_VERSION): number[] {
  const crc = crc16(image);
  const head = [sequence, image.length, crc].flatMap((word) => [word & 0xff, (word >> 8) & 0xff]);
  return [...head, crc8(head) ^ recordXor(version), 0];
}

/**
 * A whole EEPROM; what is not given is erased (FF). Names longer than 16 bytes are cut between characters. `version`
 * is for tests of stores to come: their label and records differ in nothing else.
 */
export function buildStore(chip: Chip, content: Partial<StoreContent>, version = STORE_VERSION): Uint8Array {
  const size = storeSize(chip);
  const bytes = new Uint8Array(size).fill(0xff);
  if (content.label) {
    const { identity, name } = content.label;
    bytes.set([...MARK, version, 0]);
    bytes.set(
      [0, 2, 4, 6].map((at) => Number.parseInt(identity.slice(at, at + 2), 16) || 0),
      4,
    );
    bytes.fill(0, NAME_AT, NAME_AT + NAME_BYTES);
    new TextEncoder().encodeInto(name, bytes.subarray(NAME_AT, NAME_AT + NAME_BYTES));
    const crc = crc16(bytes.subarray(0, LABEL_CRC_AT));
    bytes.set([crc & 0xff, crc >> 8], LABEL_CRC_AT);
  }
  for (const slot of [0, 1] as const) {
    const stored = content.slots?.[slot];
    if (!stored) continue;
    bytes.set(storeRecord(stored, version), recordAddress(slot));
    bytes.set(stored.image.subarray(0, CAPACITY[chip].image), slotAddress(slot, size));
  }
  return bytes;
}

export interface ReadStore extends StoreContent {
  /** The slot that the board starts with. */
  readonly newest: Slot | null;
  /** The label names a version that is not known here: its slots are not read. */
  readonly newer: boolean;
}

/** What an EEPROM of either size holds, by the rules of the board. */
export function readStore(bytes: Uint8Array): ReadStore {
  const label = readLabel(bytes);
  const newer = label !== null && (bytes[VERSION_AT] ?? 0) > STORE_VERSION;
  if (newer) return { label, slots: [null, null], newest: null, newer };
  const slots = [readSlot(bytes, 0), readSlot(bytes, 1)] as const;
  const [a, b] = slots;
  const newest = a && b ? (isAhead(b.sequence, a.sequence) ? 1 : 0) : a ? 0 : b ? 1 : null;
  return { label, slots, newest, newer };
}

/** Sequence numbers wrap: ahead means the signed 16-bit difference is above zero. */
export function isAhead(sequence: number, other: number): boolean {
  const difference = (sequence - other) & 0xffff;
  return difference !== 0 && difference < 0x8000;
}

function wordAt(bytes: Uint8Array, at: number): number {
  return (bytes[at] ?? 0) | ((bytes[at + 1] ?? 0) << 8);
}

function readSlot(bytes: Uint8Array, slot: Slot): StoredImage | null {
  const record = recordAddress(slot);
  const head = bytes.subarray(record, record + 6);
  if (bytes[record + 6] !== (crc8(head) ^ recordXor(STORE_VERSION))) return null;
  const length = wordAt(bytes, record + 2);
  if (length === 0 || length > (bytes.length - SLOTS_AT) / 2) return null;
  const at = slotAddress(slot, bytes.length);
  const image = bytes.slice(at, at + length);
  return crc16(image) === wordAt(bytes, record + 4) ? { sequence: wordAt(bytes, record), image } : null;
}

/** Its form is the same in every version, so a board keeps its name also where the rest is not known. */
function readLabel(bytes: Uint8Array): BoardLabel | null {
  const isMarked = bytes[0] === MARK[0] && bytes[1] === MARK[1] && bytes[VERSION_AT] !== 0;
  if (!isMarked || crc16(bytes.subarray(0, LABEL_CRC_AT)) !== wordAt(bytes, LABEL_CRC_AT)) return null;
  const identity = [...bytes.subarray(4, 8)].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');
  const name = bytes.subarray(NAME_AT, NAME_AT + NAME_BYTES);
  const end = name.indexOf(0);
  return { identity, name: new TextDecoder().decode(end < 0 ? name : name.subarray(0, end)) };
}
