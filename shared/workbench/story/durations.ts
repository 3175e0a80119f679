/** How long after what something happened: a keep after the first change, an end after its beginning. */
import type { LogEntry } from '../contract.ts';
import { spanText } from './counted.ts';
import { momentMs } from './moment.ts';

/** Walks through a session once, entry by entry, and remembers what is still open. */
export class Durations {
  private readonly open: Map<string, number>;

  constructor(open: Iterable<readonly [string, number]> = []) {
    this.open = new Map(open);
  }

  copy(): Durations {
    return new Durations(this.open);
  }

  /** What to say of this entry, without a stop; empty where there is nothing to say. */
  note(entry: LogEntry): string {
    const at = momentMs(entry.at);
    if (at === null) return '';
    const board = entry.board ?? '';
    const { on, site } = entry.data ?? {};
    switch (entry.kind) {
      case 'start':
        this.open.clear();
        this.open.set('session', at);
        return '';
      case 'end':
        return this.close('session', at, (span) => `after ${span}`);
      case 'nudge':
        this.begin(`changes ${board}`, at);
        return '';
      case 'keep':
        return this.close(`changes ${board}`, at, (span) => `${span} after the first change`);
      case 'putBack':
        this.open.delete(`changes ${board}`);
        return '';
      case 'check':
        if (entry.text.startsWith('Began a lamp check')) this.begin(`check ${board}`, at);
        if (/^Ended the lamp check|broke off/.test(entry.text)) {
          return this.close(`check ${board}`, at, (span) => `after ${span}`);
        }
        return '';
      case 'control':
        return this.control(on, site === undefined ? `pause ${board}` : `hold ${board} ${site}`, at);
      case 'power':
        if (on === false) this.begin(`off ${board}`, at);
        return on === true ? this.close(`off ${board}`, at, (span) => `after ${span}`) : '';
      default:
        return '';
    }
  }

  private control(on: unknown, key: string, at: number): string {
    if (on === true) this.begin(key, at);
    return on === false ? this.close(key, at, (span) => `after ${span}`) : '';
  }

  private begin(key: string, at: number): void {
    if (!this.open.has(key)) this.open.set(key, at);
  }

  private close(key: string, at: number, say: (span: string) => string): string {
    const since = this.open.get(key);
    this.open.delete(key);
    return since === undefined ? '' : say(spanText(at - since));
  }
}
