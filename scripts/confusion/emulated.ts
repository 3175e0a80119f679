/** A probe by the shipped firmware in the emulated chip, with the lamps wired to it. */
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import type { WiringFault } from '../../shared/electrics/model.ts';
import { encodeRequest, parseLine } from '../../shared/link/line.ts';
import { ask, type PinReading, type Request, readAnswer } from '../../shared/link/requests.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { buildStore } from '../../shared/table/store.ts';
import type { Bench } from './benches.ts';
import type { Conditions } from './paper.ts';

const MS = CPU_HZ / 1000;
/** The line takes a word in some milliseconds; a host is silent for longer only when something is wrong. */
const PATIENCE_MS = 200;

/** A board that runs the table of a bench with all its lamps dark. */
export class EmulatedBoard {
  readonly board: VirtualBoard;
  private sequence = 0;
  private text = '';
  private readonly lines: string[] = [];

  constructor({ table }: Bench) {
    const image = loadImage(table.chip);
    const { bytes } = encodeTable({ ...table, sweep: 0 });
    if (!image.ok || !bytes) throw new Error('no image');
    const eeprom = buildStore(table.chip, { slots: [{ sequence: 1, image: bytes }, null] });
    this.board = new VirtualBoard({ chip: table.chip, flash: image.flash, eeprom });
    this.board.onByte = (byte) => this.hear(byte);
    this.board.connectChain(table.chain);
    this.board.power(true);
    this.board.run(100 * MS);
    this.request(ask.master('off'));
    this.board.run(20 * MS);
  }

  wire(loads: Bench['loads'], faults: readonly WiringFault[], conditions: Conditions): void {
    this.board.connectCircuit({ loads, faults, ...conditions });
  }

  /** Null where the board refuses, as for bits of the chain. */
  probe(output: number, activeLow: boolean): PinReading | null {
    return this.request(ask.probe(output, !activeLow));
  }

  request<T>(request: Request<T>): T | null {
    this.sequence = (this.sequence + 1) & 0xff;
    this.board.write(new TextEncoder().encode(encodeRequest(this.sequence, request.word, request.args)));
    const from = this.lines.length;
    for (let ms = 0; ms < PATIENCE_MS; ms++) {
      this.board.run(MS);
      for (const line of this.lines.slice(from)) {
        const parsed = parseLine(line);
        if (parsed.kind !== 'answer' || parsed.sequence !== this.sequence) continue;
        this.lines.length = 0;
        const answer = readAnswer(request, parsed);
        return answer.ok ? answer.value : null;
      }
    }
    throw new Error(`no answer to ${request.word}`);
  }

  private hear(byte: number): void {
    if (byte === 0x0a) {
      this.lines.push(this.text);
      this.text = '';
    } else this.text += String.fromCharCode(byte);
  }
}
