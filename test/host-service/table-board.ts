import { toHex } from '../../shared/link/fields.ts';
import { ask } from '../../shared/link/requests.ts';
import { dialOffsets, imageCrc, imageShape } from '../../shared/table/shape.ts';
import { encodeTime, timeAt } from '../../shared/table/time.ts';
import { FakeBoard } from '../host/fake-board.ts';

const hex4 = (value: number): string => value.toString(16).toUpperCase().padStart(4, '0');

/**
 * What a fake board has in its memory; each connection to it is a new
 * `FakeBoard`. It runs nothing: rows and lamps stand as the test sets them.
 */
export class TableBoard {
  run: Uint8Array | null = null;
  kept: Uint8Array | null = null;
  identity = '0000A001';
  chip = 'atmega328p';
  protocol = 1;
  firmware = '1.1.0';
  name = '';
  cause = 'power';
  ms = 5000;
  lit = '0000';
  row = 0;
  elapsed = 1000;
  keeps = 0;
  paused = false;
  storeFault = false;
  master = 'run';
  readonly held = new Set<number>();
  /** Connections so far, the newest last. */
  readonly lines: FakeBoard[] = [];
  /** What the next connections answer otherwise. */
  script: FakeBoard['replies'] = {};

  /** Somebody opens the port. */
  plug(): FakeBoard {
    const line = new FakeBoard();
    Object.assign(line.replies, this.replies(line), this.script);
    this.lines.push(line);
    return line;
  }

  get line(): FakeBoard {
    const line = this.lines.at(-1);
    if (!line) throw new Error('nobody has connected');
    return line;
  }

  /** Power fails: what was not kept is gone. */
  powerCut(): void {
    this.run = this.kept;
    this.held.clear();
    this.paused = false;
  }

  private flags(): string {
    const unkept = this.run && (!this.kept || imageCrc(this.run) !== imageCrc(this.kept));
    const bits = [this.run !== null, unkept, this.paused, false, false, false, this.storeFault];
    return bits
      .reduce((sum, set, bit) => sum + (set ? 1 << bit : 0), 0)
      .toString(16)
      .toUpperCase()
      .padStart(2, '0');
  }

  private image(which: string | undefined): Uint8Array | null {
    return which === 'kept' ? this.kept : this.run;
  }

  private replies(line: FakeBoard): FakeBoard['replies'] {
    return {
      who: () => ['amberwick', this.protocol, this.firmware, 1, this.chip, this.identity, '-', this.name || '-'],
      state: () => [60, this.cause, 4980, 200, this.master, this.flags(), 0, this.keeps],
      sum: ({ args: [which] }) => {
        const image = this.image(which);
        return image ? [image.length, hex4(imageCrc(image)), hex4(imageShape(image) ?? 0)] : { no: 5 };
      },
      read: ({ args: [which, offset] }) => {
        const image = this.image(which);
        return image ? [offset ?? '', toHex(image.subarray(Number(offset), Number(offset) + 32))] : { no: 5 };
      },
      tell: () => [],
      label: ({ args: [identity, name] }) => {
        this.identity = identity ?? '';
        this.name = name ?? '';
        return [];
      },
      snap: () => [this.ms, this.lit, '0', this.master, this.flags()],
      site: ({ args: [site] }) => [this.row, this.elapsed, this.held.has(Number(site)) ? '01' : '00', 0],
      beat: () => [this.ms],
      guard: () => [0, '-', 0, '00', 0, 0],
      start: () => {
        this.run = line.staged.slice();
        return [hex4(imageShape(this.run) ?? 0)];
      },
      dial: ({ args: [site, dial, ms] }) => this.dial(Number(site), Number(dial), Number(ms)),
      keep: () => {
        this.kept = this.run;
        this.keeps += 1;
        return [this.keeps];
      },
      back: () => {
        this.run = this.kept;
        return [];
      },
      hold: ({ args: [site, on] }) => {
        if (on === '1') this.held.add(Number(site));
        else this.held.delete(Number(site));
        return [];
      },
      pause: () => {
        this.paused = true;
        return [];
      },
      run: () => {
        this.paused = false;
        return [];
      },
      master: ({ args: [state] }) => {
        this.master = state === 'auto' ? 'run' : (state ?? 'run');
        return [];
      },
      step: () => [this.row],
      again: () => [],
      press: () => [],
    };
  }

  private dial(site: number, dial: number, ms: number): readonly number[] | { readonly no: number } {
    const at = this.run && dialOffsets(this.run)?.sites[site]?.[dial];
    if (!this.run || at === undefined || at === null) return { no: 3 };
    if (ms < 1000) return { no: 4 };
    const word = encodeTime(ms) ?? 0;
    this.run = this.run.slice();
    this.run[at] = word & 0xff;
    this.run[at + 1] = word >> 8;
    return [timeAt(this.run, at)];
  }
}

/** Words that change what a board runs, keeps or shows. */
export const WRITING: readonly string[] = [
  ask.begin(1, 0),
  ask.part(0, new Uint8Array(1)),
  ask.start(),
  ask.keep(),
  ask.back(),
  ask.erase(),
  ask.dial(0, 0, 0),
  ask.hold(0, true),
  ask.pause(),
  ask.step(0),
  ask.again(),
  ask.master('off'),
  ask.press(0, 'on'),
  ask.lamp(0, 'on'),
  ask.label('00000000', ''),
].map(({ word }) => word);
