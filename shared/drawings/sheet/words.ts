/** How outputs, lamps, resistors and check results are written on the sheet. */
import { bandsOf, ohmsText } from '../../electrics/bands.ts';
import { isWire } from '../../electrics/loads.ts';
import type { Load } from '../../electrics/model.ts';
import { type Chip, PROFILES } from '../../electrics/profiles/profiles.ts';
import { answerFor } from '../../lampcheck/record.ts';
import type { CheckedLamp, LampKey } from '../../layout/check-record.ts';
import type { SheetBoard } from './model.ts';

/** Without zeros that say nothing. */
export function plain(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}

export const milliampsText = (milliamps: number): string => `${plain(milliamps, 1)} mA`;
export const voltsText = (volts: number): string => `${plain(volts, 2)} V`;

export function resistorText(load: Load): string {
  if (isWire(load)) return 'none';
  const { circuit } = load;
  const { resistor, isGiven, wired, count, source } = circuit;
  if (resistor === 'fitted') return 'fitted in the lamp';
  if (resistor === null) return source === 'filament' ? 'none' : 'none will do';
  const each = count > 1 && wired === 'parallel' ? ', one to each LED' : '';
  return `${ohmsText(resistor)}${isGiven ? ', as planned' : ''}${each}`;
}

/** Colours of the resistor's bands; empty where there is none to fit. */
export function bandsText({ circuit }: Load): string {
  const bands = typeof circuit.resistor === 'number' ? bandsOf(circuit.resistor, 4) : null;
  return bands === null ? '' : bands.join(' ');
}

/** Port bit of an output; empty for a bit of the chain. */
export function portOf(chip: Chip, output: number): string {
  return PROFILES[chip].pins[output]?.port ?? '';
}

/** The other side of the lamps: what they share. */
export function commonText(load: Load): string {
  if (isWire(load)) return 'GND';
  const { circuit, activeLow } = load;
  if (circuit.driver !== 'direct' || activeLow) return `+${voltsText(circuit.volts)}`;
  return 'GND';
}

/** Which legs of the LEDs are joined. */
export function polarityText(load: Load): string {
  if (load.circuit.source === 'filament') return isWire(load) ? 'joined grounds' : 'either way round';
  return commonText(load) === 'GND' ? 'common cathode' : 'common anode';
}

/** `amber`, `double yellow (2 in series)`. */
export function lampText(load: Load): string {
  if (isWire(load)) return 'wire to another board';
  const { count, wired, source } = load.circuit;
  const more = count === 1 ? '' : `, ${count} ${wired === 'series' ? 'in series' : 'side by side'}`;
  const kind = source === 'filament' && load.colour !== '' ? ', filament' : '';
  return `${load.colour === '' ? 'lamp' : load.colour}${kind}${more}`;
}

/** Heads on the output, or what it is called where there are none. */
export function headsText({ heads, label }: Load): string {
  const names = heads.map(({ name }) => name);
  return names.length === 0 ? label : names.join('; ');
}

/** What stands on the label of a wire: `D5 Market Cross Fore Street red`. */
export function wireText(load: Load, head: string): string {
  const site = load.site === null ? '' : `${load.siteName} `;
  return `${load.outputName} ${site}${head}${load.colour === '' ? '' : ` ${load.colour}`}`;
}

export interface CheckWords {
  /** `none`: never checked; `again`: checked at another output. */
  readonly state: CheckedLamp['result'] | 'none' | 'again';
  readonly words: string;
  /** When and by whom; empty where nothing was checked. */
  readonly about: string;
  readonly note: string;
}

const FOUND: Readonly<Record<CheckedLamp['result'], string>> = {
  right: 'right',
  dark: 'stayed dark',
  wrong: 'another lamp lit',
  dim: 'too dim',
  two: 'two lamps lit',
};

/** What the last check found on this output; a lamp that has moved since has to be checked again. */
export function checkWords({ check, loads }: Pick<SheetBoard, 'check' | 'loads'>, load: Load): CheckWords {
  const found = answerFor(loads, load, check);
  if (found === null) return { state: 'none', words: 'not checked', about: '', note: '' };
  const by = check?.by === undefined ? '' : `, ${check.by}`;
  const about = `${momentText(found.at)}${by}`;
  const note = found.note ?? '';
  if (found.output !== load.outputName) {
    return { state: 'again', words: `check again: it was on ${found.output}`, about, note };
  }
  const saw = (found.saw ?? []).map(keyText).join(', ');
  const words = saw === '' ? FOUND[found.result] : `${FOUND[found.result]}: ${saw}`;
  return { state: found.result, words, about, note };
}

const keyText = ({ label, colour }: LampKey): string => (colour === '' ? label : `${label} ${colour}`);

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** `2026-11-25T19:04:00+01:00` as `25 Nov 2026, 19:04`: the clock on the wall where it was written. */
export function momentText(iso: string): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}:\d{2})/.exec(iso);
  if (match === null) return iso;
  const [, year, month, day, time] = match;
  return `${Number(day)} ${MONTHS[Number(month) - 1] ?? month} ${year}, ${time}`;
}
