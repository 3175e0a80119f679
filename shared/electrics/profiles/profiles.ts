/** The boards: their pins, what each can be used for, and which pins share a limit. */
import type { Board } from '../../layout/outputs.ts';
import { type Fact, fact } from '../../practice/fact.ts';
import { pinName } from '../../signals/pins.ts';

export type Chip = Board['chip'];

/** serial: the line to the computer; led: the board's own LED hangs on it, too. */
export type PinRole = 'serial' | 'analogue' | 'spi' | 'i2c' | 'led';

export interface PinProfile {
  /** As the board counts it. */
  readonly number: number;
  /** What stands on the board: `D5`, `A2`. */
  readonly name: string;
  /** What the data sheet calls it: `PD5`. */
  readonly port: string;
  readonly roles: readonly PinRole[];
}

/** Pins whose currents together have a limit. */
export interface PortGroup {
  readonly name: string;
  /** source: lit while high; sink: lit while low. */
  readonly direction: 'source' | 'sink';
  /** Port bits: `PD5`. */
  readonly ports: ReadonlySet<string>;
  /** mA. */
  readonly limit: Fact<number>;
}

export interface BoardProfile {
  readonly chip: Chip;
  /** What people read. */
  readonly name: string;
  readonly pins: readonly PinProfile[];
  readonly groups: readonly PortGroup[];
}

/** `C0-5 D0-4` to the set of `PC0` ... `PD4`. */
function portBits(text: string): ReadonlySet<string> {
  const bits = text.split(' ').flatMap((part) => {
    const [, port, from, to] = /^([A-L])(\d)(?:-(\d))?$/.exec(part) ?? [];
    const [first, last] = [Number(from), Number(to ?? from)];
    return Array.from({ length: last - first + 1 }, (_, at) => `P${port}${first + at}`);
  });
  return new Set(bits);
}

function group(direction: PortGroup['direction'], text: string, limit: Fact<number>): PortGroup {
  return { name: text, direction, ports: portBits(text), limit };
}

const NOTE_3 = 'ATmega328P data sheet (8271) §29.2 note 3';
const NOTE_4 = 'ATmega328P data sheet (8271) §29.2 note 4';
const MEGA_3 = 'ATmega2560 data sheet (2549) §31 note 3';
const MEGA_4 = 'ATmega2560 data sheet (2549) §31 note 4';

function pinsOf(chip: Chip, ports: string, roles: Readonly<Record<string, readonly PinRole[]>>): PinProfile[] {
  return ports.split(' ').map((port, number) => {
    const name = pinName(number, chip);
    const own = roles[name] ?? [];
    return { number, name, port: `P${port}`, roles: name.startsWith('A') ? ['analogue', ...own] : own };
  });
}

const SERIAL: readonly PinRole[] = ['serial'];
const SPI: readonly PinRole[] = ['spi'];
const I2C: readonly PinRole[] = ['i2c'];

export const PROFILES: Readonly<Record<Chip, BoardProfile>> = {
  atmega328p: {
    chip: 'atmega328p',
    name: 'ATmega328P board',
    pins: pinsOf('atmega328p', 'D0 D1 D2 D3 D4 D5 D6 D7 B0 B1 B2 B3 B4 B5 C0 C1 C2 C3 C4 C5', {
      D0: SERIAL,
      D1: SERIAL,
      D10: SPI,
      D11: SPI,
      D12: SPI,
      D13: ['spi', 'led'],
      A4: I2C,
      A5: I2C,
    }),
    groups: [
      group('source', 'C0-5 D0-4', fact(150, 'seen', NOTE_3)),
      group('source', 'B0-5 D5-7', fact(150, 'seen', NOTE_3)),
      group('sink', 'C0-5', fact(100, 'seen', NOTE_4)),
      group('sink', 'B0-5 D5-7', fact(100, 'seen', NOTE_4)),
      group('sink', 'D0-4', fact(100, 'seen', NOTE_4)),
    ],
  },
  atmega2560: {
    chip: 'atmega2560',
    name: 'ATmega2560 board',
    pins: pinsOf(
      'atmega2560',
      'E0 E1 E4 E5 G5 E3 H3 H4 H5 H6 B4 B5 B6 B7 J1 J0 H1 H0 D3 D2 D1 D0 ' +
        'A0 A1 A2 A3 A4 A5 A6 A7 C7 C6 C5 C4 C3 C2 C1 C0 D7 G2 G1 G0 ' +
        'L7 L6 L5 L4 L3 L2 L1 L0 B3 B2 B1 B0 F0 F1 F2 F3 F4 F5 F6 F7 K0 K1 K2 K3 K4 K5 K6 K7',
      { D0: SERIAL, D1: SERIAL, D13: ['led'], D20: I2C, D21: I2C, D50: SPI, D51: SPI, D52: SPI, D53: SPI },
    ),
    groups: [
      group('source', 'J0-7 G2 A0-7', fact(200, 'quoted', MEGA_4)),
      group('source', 'C0-7 G0-1 D0-7 L0-7', fact(200, 'quoted', MEGA_4)),
      group('source', 'G3-4 B0-7 H0-7', fact(200, 'quoted', MEGA_4)),
      group('source', 'E0-7 G5', fact(100, 'memory', `${MEGA_4}, from memory`)),
      group('source', 'F0-7 K0-7', fact(100, 'memory', `${MEGA_4}, from memory`)),
      group('sink', 'J0-7 A0-7 G2', fact(200, 'seen', MEGA_3)),
      group('sink', 'C0-7 G0-1 D0-7 L0-7', fact(200, 'seen', MEGA_3)),
      group('sink', 'G3-4 B0-7 H0-7', fact(200, 'seen', MEGA_3)),
      group('sink', 'E0-7 G5', fact(100, 'seen', MEGA_3)),
      group('sink', 'F0-7 K0-7', fact(100, 'seen', MEGA_3)),
    ],
  },
};

/** Null where the board has no such pin; its number is as in the board image. */
export function pinProfile(chip: Chip, number: number): PinProfile | null {
  return PROFILES[chip].pins[number] ?? null;
}

/** The port groups of a pin, in one direction: one each, on these chips. */
export function groupsOf(chip: Chip, number: number, direction: PortGroup['direction']): PortGroup[] {
  const pin = pinProfile(chip, number);
  if (pin === null) return [];
  return PROFILES[chip].groups.filter((it) => it.direction === direction && it.ports.has(pin.port));
}

/** `C0-5 D0-4` as the board's own names: `A0 to A5, D0 to D4`. Pins that the board does not bring out are left out. */
export function groupPins(chip: Chip, of: PortGroup): string[] {
  return PROFILES[chip].pins.filter((pin) => of.ports.has(pin.port)).map(({ name }) => name);
}
