/** Names of pins as they stand on boards, and who uses each of them. */
import type { Finding } from '../findings/finding.ts';
import { error, warning } from '../findings/make.ts';
import { shortened } from '../findings/shortened.ts';
import type { Board, Lamp, Pin } from '../layout/outputs.ts';
import { CAPACITY, CHAIN_BASE, type Chip } from '../table/format.ts';

/** Number of pin A0; the digital pins are those below it (firmware/PROTOCOL.md chapter 5). */
const FIRST_ANALOGUE: Readonly<Record<Chip, number>> = { atmega328p: 14, atmega2560: 54 };

/** Board number of a pin, or null where the board has no such pin. */
export function pinNumber(pin: Pin, chip: Chip): number | null {
  const { pins } = CAPACITY[chip];
  const analogue = FIRST_ANALOGUE[chip];
  if (typeof pin === 'number') return Number.isInteger(pin) && pin >= 0 && pin <= pins ? pin : null;
  const match = /^([DA])(\d{1,2})$/i.exec(pin.trim());
  if (match === null) return null;
  const count = Number(match[2]);
  const isAnalogue = match[1]?.toUpperCase() === 'A';
  if (!isAnalogue) return count < analogue ? count : null;
  return analogue + count <= pins ? analogue + count : null;
}

/** The name that stands on the board. */
export function pinName(pin: number, chip: Chip): string {
  const analogue = FIRST_ANALOGUE[chip];
  return pin < analogue ? `D${pin}` : `A${pin - analogue}`;
}

/** Gives out the pins and chain bits of one board, each once. */
export class Outputs {
  readonly findings: Finding[] = [];
  private readonly board: Board;
  private readonly taken = new Map<number, string>();
  private chainMissed = false;

  constructor(board: Board) {
    this.board = board;
  }

  /** Output number of a lamp as in the board image, or null with a finding. */
  lamp(lamp: Lamp, path: string, who: string): number | null {
    if (lamp.pin !== undefined && lamp.bit !== undefined) {
      return this.refuse('two-outputs', path, {
        what: `${who} has a pin and a bit of the chain.`,
        why: 'A lamp hangs on one output.',
        cure: 'Keep the one that it is wired to.',
      });
    }
    if (lamp.pin !== undefined) return this.pin(lamp.pin, `${path}.pin`, who);
    if (lamp.bit !== undefined) return this.bit(lamp.bit, `${path}.bit`, who);
    return this.refuse('no-output', path, {
      what: `${who} has no output.`,
      why: 'The board would not know where the lamp is wired.',
      cure: 'Write its pin, such as "pin": "D5", or its bit of the chain.',
    });
  }

  pin(pin: Pin, path: string, who: string): number | null {
    const { chip } = this.board;
    const number = pinNumber(pin, chip);
    if (number === null) {
      const last = CAPACITY[chip].pins - FIRST_ANALOGUE[chip];
      return this.refuse('unknown-pin', path, {
        what: `${this.board.name} has no pin "${shortened(`${pin}`, 20)}".`,
        why: `${who} could not be wired.`,
        cure: `Use D2 to D${FIRST_ANALOGUE[chip] - 1} or A0 to A${last}.`,
      });
    }
    if (number <= 1) {
      return this.refuse('serial-pin', path, {
        what: `Pin ${pinName(number, chip)} is the serial line.`,
        why: 'The computer talks to the board over D0 and D1.',
        cure: `Move ${who} to another pin.`,
      });
    }
    if (number === 13) {
      this.findings.push(
        warning('own-led-pin', path, {
          what: "Pin D13 also drives the board's own LED.",
          why: 'Boot loaders blink it at each start, and the lamp with it.',
          cure: `Move ${who} to another pin while one is free.`,
        }),
      );
    }
    return this.take(number, path, who, pinName(number, chip), 'pin-twice');
  }

  private bit(bit: number, path: string, who: string): number | null {
    const { chain } = this.board;
    if (chain === undefined) {
      // One finding for the missing chain, not one for each lamp that needs it.
      if (this.chainMissed) return null;
      this.chainMissed = true;
      return this.refuse('no-chain', path, {
        what: `${this.board.name} has no chain, and ${who} is on bit ${bit} of it.`,
        why: 'Bits are outputs of shift registers behind the board.',
        cure: 'Give the board a chain, or the lamp a pin.',
      });
    }
    if (bit >= chain.chips * 8) {
      return this.refuse('unknown-bit', path, {
        what: `The chain of ${this.board.name} ends with bit ${chain.chips * 8 - 1}.`,
        why: `${who} could not be wired to bit ${bit}.`,
        cure: 'Use a smaller number, or add a chip to the chain.',
      });
    }
    return this.take(CHAIN_BASE + bit, path, who, `Bit ${bit} of the chain`, 'bit-twice');
  }

  private take(output: number, path: string, who: string, name: string, code: string): number | null {
    const first = this.taken.get(output);
    if (first !== undefined) {
      return this.refuse(code, path, {
        what: `${name} is used twice: by ${first} and by ${who}.`,
        why: 'One output cannot follow two plans.',
        cure: `Move ${who} to a free one. Heads that show the same may share a phase instead.`,
      });
    }
    this.taken.set(output, who);
    return output;
  }

  private refuse(code: string, path: string, words: Pick<Finding, 'what' | 'why' | 'cure'>): null {
    this.findings.push(error(code, path, words));
    return null;
  }
}
