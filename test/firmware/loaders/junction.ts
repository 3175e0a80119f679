/** The shipped firmware with a kept junction, behind a boot loader or without one. */
import { VirtualBoard } from '../../../electron/host/virtual/board.ts';
import { loadImage } from '../../../electron/host/virtual/images.ts';
import { encodeRequest } from '../../../shared/link/line.ts';
import { LineReader } from '../../../shared/link/reader.ts';
import { encodeTable } from '../../../shared/table/encode.ts';
import type { Chip } from '../../../shared/table/format.ts';
import { buildStore } from '../../../shared/table/store.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import type { Boot } from './build.ts';

export const MS = 16_000;
export const GREEN_PIN = twoStage.lamps[2]?.output ?? 0;
/** Interrupt mask of the clock (TIMSK0), on both chips. */
export const CLOCK_INTERRUPT = 0x6e;

export interface JunctionOptions {
  readonly boot?: Boot;
  /** Sweep time of a lamp, ms. */
  readonly sweep?: number;
}

export class Junction {
  readonly board: VirtualBoard;
  /** `CAUSE FLAGS` of every greeting heard as a whole line. */
  readonly greetings: string[] = [];
  readonly dropped = () => this.reader.dropped;
  private readonly reader = new LineReader();
  private readonly symbols: Readonly<Record<string, number>>;
  private answered = '';
  private sequence = 0;

  constructor(chip: Chip, options: JunctionOptions = {}) {
    const image = loadImage(chip);
    if (!image.ok) throw new Error(image.error);
    const { bytes } = encodeTable({ ...twoStage, chip, sweep: options.sweep ?? 0 });
    if (bytes === null) throw new Error('the junction does not encode');
    const label = { identity: '00C0FFEE', name: 'Elm Road' };
    const eeprom = buildStore(chip, { label, slots: [{ sequence: 1, image: bytes }, null] });
    const { boot } = options;
    this.symbols = image.shipped.symbols;
    this.board = new VirtualBoard({ chip, flash: image.flash, eeprom, ...(boot ? { boot } : {}) });
    this.board.onByte = (byte) => this.hear(byte);
  }

  run(ms: number): void {
    this.board.run(ms * MS);
  }

  address(symbol: string): number {
    const address = this.symbols[symbol];
    if (address === undefined) throw new Error(`the manifest has no symbol ${symbol}`);
    return address;
  }

  /** The board's own clock, ms, as far as 16 bits. */
  get clock(): number {
    const at = this.address('board_now');
    return this.board.peek(at) + 256 * this.board.peek(at + 1);
  }

  send(word: string, args: readonly (string | number)[] = []): void {
    this.sequence = (this.sequence + 1) & 0xff;
    this.board.write(new TextEncoder().encode(encodeRequest(this.sequence, word, args)));
  }

  /** The answer, `ok` and its fields or `no` and the code. */
  ask(word: string, args: readonly (string | number)[] = [], limit = 3000): string {
    this.answered = '';
    this.send(word, args);
    for (let ms = 0; ms < limit && this.answered === ''; ms++) this.run(1);
    return this.answered;
  }

  private hear(byte: number): void {
    for (const line of this.reader.push([byte])) {
      if (line.kind === 'event' && line.word === 'hello') this.greetings.push(line.fields.slice(1).join(' '));
      if (line.kind === 'answer' && line.sequence === this.sequence)
        this.answered = line.outcome.ok ? ['ok', ...line.outcome.fields].join(' ') : `no ${line.outcome.code}`;
    }
  }
}
