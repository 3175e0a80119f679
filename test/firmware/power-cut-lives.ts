/**
 * One board that lives through power cut after power cut: it starts, a dial is changed and kept, the power fails at
 * a random cycle of that, and the next life begins with what the EEPROM is left with. Nothing is ever repaired.
 */
import { encodeRequest } from '../../shared/link/line.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { readStore, recordAddress, type Slot, slotAddress } from '../../shared/table/store.ts';
import { chance, type Dice } from '../fixtures/dice.ts';
import { CYCLES_PER_MS, Rig } from '../timing/rig.ts';
import { TornWrite } from './torn-write.ts';

/** Longest a byte takes from one to the next while the table runs, ms; what a keep takes besides its bytes. */
const BYTE_MS = 4;
const BESIDES_MS = 60;
/** Longest start, ms. */
const START_MS = 3000;
const FLAG_STORE_FAULT = 0x40;

export interface Lives {
  cuts: number;
  /** What the next life started with, where the cut came before the answer. */
  old: number;
  fresh: number;
  /** The cut came after the answer to the keep. */
  answered: number;
  /** The byte under way was torn while being erased, or written. */
  tornErase: number;
  tornWrite: number;
  /** Starts that told of a slot with a fitting mark that did not count; the other one ran. */
  storeFaults: number;
}

export class CutLives {
  readonly count: Lives = { cuts: 0, old: 0, fresh: 0, answered: 0, tornErase: 0, tornWrite: 0, storeFaults: 0 };
  private readonly rig: Rig;
  private readonly torn: TornWrite;
  private readonly dice: Dice;
  private readonly first: number;

  constructor(table: BoardTable, dice: Dice) {
    this.rig = new Rig(table);
    this.torn = new TornWrite(this.rig.board);
    this.dice = dice;
    this.first = table.sites[0]?.dials[0] ?? 0;
    this.start();
  }

  /** One more cut. Throws when the next start does not run the old table or the new one, whole. */
  cut(): void {
    const { rig, dice, count } = this;
    const old = this.kept();
    if (chance(dice, 25)) this.litter();
    const ms = this.first - 5000 + 10 * dice.int(0, 1000);
    const dial = rig.ask('dial', 0, 0, ms);
    if (dial !== `ok ${ms}`) throw new Error(`the dial was not taken: ${dial}`);
    const [fresh = ''] = rig.ask('sum', 'run').split(' ').slice(2, 3);
    // The board takes a number that it has just had for a repeat.
    const sequence =
      (Number.parseInt(rig.lines.findLast((line) => line.startsWith('='))?.slice(1, 3) ?? '0', 16) + 1) & 0xff;
    const from = rig.lines.length;
    rig.board.write(new TextEncoder().encode(encodeRequest(sequence, 'keep')));
    rig.board.run(dice.int(0, this.longest() * CYCLES_PER_MS));
    const isAnswered = rig.lines.slice(from).some((line) => /^=.. ok \d/.test(line));
    const tornIn = this.torn.cut(dice);
    if (tornIn === 'erase') count.tornErase += 1;
    if (tornIn === 'write') count.tornWrite += 1;
    this.start();
    this.judge({ old, fresh, isAnswered });
  }

  private judge({ old, fresh, isAnswered }: { old: string; fresh: string; isAnswered: boolean }): void {
    const { rig, count } = this;
    const now = this.kept();
    const running = rig.ask('sum', 'run').split(' ')[2];
    const at = `cut ${count.cuts + 1}: kept ${now}, runs ${running}, was ${old}, to be ${fresh}`;
    if (now !== fresh && (now !== old || isAnswered)) throw new Error(`${at}, answered ${isAnswered}`);
    if (running !== now) throw new Error(`${at}: it runs something else than it keeps`);
    // By the rules in words, and byte by byte, without the firmware.
    const { slots, newest } = readStore(rig.board.eeprom.memory);
    if (newest === null || !slots[newest]) throw new Error(`${at}: no slot counts`);
    const flags = Number.parseInt(rig.ask('state').split(' ')[6] ?? '0', 16);
    count.cuts += 1;
    count.storeFaults += flags & FLAG_STORE_FAULT ? 1 : 0;
    if (isAnswered) count.answered += 1;
    else count[now === fresh ? 'fresh' : 'old'] += 1;
  }

  private kept(): string {
    const answer = this.rig.ask('sum', 'kept').split(' ');
    if (answer[0] !== 'ok' || !answer[2])
      throw new Error(`cut ${this.count.cuts}: it keeps nothing: ${answer.join(' ')}`);
    return answer[2];
  }

  /** An upload that was given up has left its bytes in the spare slot, so that a keep writes all of it. */
  private litter(): void {
    const { memory } = this.rig.board.eeprom;
    const { newest, slots } = readStore(memory);
    if (newest === null) return;
    const spare: Slot = newest === 0 ? 1 : 0;
    // `begin` spoils a mark that fits.
    const mark = recordAddress(spare) + 6;
    if (slots[spare]) memory[mark] = ~(memory[mark] ?? 0) & 0xff;
    const at = slotAddress(spare, memory.length);
    const length = slots[newest]?.image.length ?? 0;
    for (let i = 0; i < length; i++) memory[at + i] = this.dice.int(0, 255);
    this.torn.look();
  }

  /** About as long as the keep will take, and a little more, ms. */
  private longest(): number {
    const { memory } = this.rig.board.eeprom;
    const { newest, slots } = readStore(memory);
    const image = (newest !== null && slots[newest]?.image) || new Uint8Array();
    const spare = slotAddress(newest === 0 ? 1 : 0, memory.length);
    const differ = image.reduce((sum, byte, at) => sum + (byte === memory[spare + at] ? 0 : 1), 0);
    return BESIDES_MS + BYTE_MS * (differ + 10);
  }

  private start(): void {
    const { rig } = this;
    rig.takeEdges();
    rig.lines.length = 0;
    rig.board.power(true);
    for (let ms = 0; ms < START_MS && rig.lines.length === 0; ms += 5) rig.runMs(5);
    rig.runMs(20);
  }
}
