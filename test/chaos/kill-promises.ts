/** What may be found on the disk of a host that was killed: what it has said was done, or what it was at. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BoardBook } from '../../electron/host/book/board-book.ts';
import { dialsOf } from '../../electron/host/service/images.ts';
import { readStore } from '../../shared/table/store.ts';
import type { FromHost, Thing } from './kill-messages.ts';

/** So many earlier copies are looked for: the book has more room, for those that were never said to be kept. */
const LATEST = 8;

/** Before the first promise anything may be there, or nothing. */
type May = { values: (string | null)[]; promised: boolean };

export class Promises {
  private readonly folder: string;
  private readonly may: Record<Exclude<Thing, 'remark'> | 'book', May> = {
    virtual: { values: [null, '18000'], promised: false },
    bench: { values: [null, '18000'], promised: false },
    book: { values: [null, '18000'], promised: false },
    layout: { values: [null], promised: false },
    check: { values: [null], promised: false },
  };
  /** Of the life that is looked at. */
  private remarks: string[] = [];
  /** What the bench board was said to have kept, oldest first, with the day: the book thins out other days. */
  private readonly history: { readonly value: string; readonly day: string }[] = [];
  private logged = 0;
  private seenLogs = new Set<string>();
  /** Half lines found at the end of the log of a killed host; the next start takes them off. */
  tornLines = 0;

  constructor(folder: string) {
    this.folder = folder;
  }

  hear(message: FromHost): void {
    if (message.type === 'broken') throw new Error(message.cause);
    if (message.type === 'logged') this.logged = Math.max(this.logged, message.number);
    if (message.type === 'wanted' || message.type === 'done') this.note(message);
    if (message.type !== 'began') return;
    // What a person sees in the next life is what was found on the disk.
    if (message.kept !== null) this.agree('virtual', String(message.kept), 'seen');
    if (this.may.layout.promised) this.agree('layout', message.layout, 'seen');
    if (this.may.check.promised) this.agree('check', message.check, 'seen');
  }

  /** The host is dead: everything on the disk is whole, and as promised. */
  checkDisk(): void {
    const { folder } = this;
    for (const name of list(folder, 'boards')) JSON.parse(readFileSync(join(folder, 'boards', name), 'utf8'));
    this.agree('virtual', firstDial(read(folder, 'virtual', 'town-atmega328p.eeprom')), 'on the disk');
    this.agree('bench', firstDial(read(folder, 'bench', 'board-atmega328p.eeprom')), 'on the disk');
    this.checkBook();
    const layout = read(folder, 'layouts', 'open.json');
    this.agree('layout', layout && JSON.parse(JSON.parse(layout.toString()).text).notes, 'on the disk');
    const [checks] = list(folder, 'checks').map((name) => read(folder, 'checks', name));
    this.agree('check', checks ? JSON.parse(checks.toString()).record.by : null, 'on the disk');
    this.checkLog();
  }

  /** Every log of this folder, now that another host has started after the death. */
  checkOldLogs(): void {
    const newest = list(this.folder, 'sessions').at(-1);
    for (const name of list(this.folder, 'sessions').slice(-6)) {
      if (name === newest) continue;
      const { entries, rest } = readLog(join(this.folder, 'sessions', name));
      if (rest !== '' && entries.length > 0) throw new Error(`${name} still ends in half a line`);
    }
  }

  /** The copy of what the board keeps, and before it what it kept before, in order. */
  private checkBook(): void {
    const [copy] = new BoardBook(join(this.folder, 'boards'), () => new Date()).copiesFor('town', 'atmega328p');
    const found = copy ? [copy.kept, ...copy.earlier].flatMap((it) => (it ? [timeIn(it.image)] : [])) : [];
    this.agree('book', found[0] ?? null, 'on the disk');
    const today = new Date().toDateString();
    const wanted = this.history.filter(({ day }) => day === today).slice(-LATEST);
    let at = 0;
    for (const { value } of wanted.reverse()) {
      at = found.indexOf(value, at) + 1;
      if (at === 0) throw new Error(`the book lacks ${value}; it has ${found.join(' ')}`);
    }
  }

  private note({ type, thing, value }: Extract<FromHost, { type: 'wanted' | 'done' }>): void {
    if (thing === 'remark') {
      if (type === 'done') this.remarks.push(value);
      return;
    }
    if (thing === 'bench' && type === 'done') this.history.push({ value, day: new Date().toDateString() });
    for (const name of thing === 'bench' ? (['bench', 'book'] as const) : [thing]) {
      if (type === 'wanted') this.may[name].values.push(value);
      else this.may[name] = { values: [value], promised: true };
    }
  }

  private agree(name: keyof Promises['may'], found: string | null, where: string): void {
    const { values } = this.may[name];
    if (!values.includes(found)) throw new Error(`${name} ${where}: ${found}; expected ${values.join(' or ')}`);
    // The book may come to know later what the board keeps; and a board that keeps nothing may yet get the example.
    if (name !== 'book' && found !== null) this.may[name] = { values: [found], promised: true };
  }

  private checkLog(): void {
    const all = list(this.folder, 'sessions');
    const fresh = all.filter((name) => !this.seenLogs.has(name));
    if (fresh.length > 1) throw new Error(`one life, ${fresh.length} logs`);
    const [name] = fresh;
    if (name) {
      const { entries, rest } = readLog(join(this.folder, 'sessions', name));
      if (rest !== '') this.tornLines += 1;
      const numbers = entries.map(({ number }) => number);
      if (numbers.some((number, at) => number !== at + 1)) throw new Error(`${name} has a gap: ${numbers.join(' ')}`);
      if (numbers.length < this.logged)
        throw new Error(`${name} has ${numbers.length} of ${this.logged} lines told of`);
      for (const remark of this.remarks) {
        if (!entries.some(({ kind, text }) => kind === 'remark' && text === remark)) {
          throw new Error(`${name} lacks the remark ${remark}`);
        }
      }
    } else if (this.logged > 0) throw new Error('lines were told of, and there is no log');
    this.seenLogs = new Set(all);
    this.remarks = [];
    this.logged = 0;
  }
}

interface Line {
  readonly number: number;
  readonly kind: string;
  readonly text: string;
}

/** The whole lines, each of which must be JSON, and what comes after the last of them. */
function readLog(file: string): { readonly entries: readonly Line[]; readonly rest: string } {
  const lines = readFileSync(file, 'utf8').split('\n');
  const rest = lines.pop() ?? '';
  return { entries: lines.map((line) => JSON.parse(line) as Line), rest };
}

/** First dial of what the board would start with, ms; null where it keeps nothing. */
function firstDial(eeprom: Uint8Array | null): string | null {
  if (!eeprom) return null;
  const { newest, slots } = readStore(new Uint8Array(eeprom));
  const image = newest === null ? null : slots[newest]?.image;
  return image ? timeIn(image) : null;
}

function timeIn(image: Uint8Array): string {
  return String(dialsOf(image)?.[0]?.[0]);
}

function list(folder: string, part: string): string[] {
  try {
    return readdirSync(join(folder, part))
      .filter((name) => /\.jsonl?$/.test(name))
      .sort();
  } catch {
    return [];
  }
}

function read(folder: string, part: string, name: string): Buffer | null {
  try {
    return readFileSync(join(folder, part, name));
  } catch {
    return null;
  }
}
