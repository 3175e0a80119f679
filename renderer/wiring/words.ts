/** What stands on the wiring sheet, in plain words. */
import { bandsOf, ohmsText } from '../../shared/electrics/bands.ts';
import type { Load } from '../../shared/electrics/model.ts';
import type { LampPlace } from '../../shared/layout/wiring/lamps.ts';
import type { Output } from '../../shared/layout/wiring/outputs.ts';
import { LETTERS } from '../plan/lamp.tsx';

const COLOURS = ['red', 'amber', 'green', 'yellow', 'white', 'warm-white', 'blue'];

/** As the compiler has it, else as the document names it; empty where nobody says. */
export function colourOf({ lamp, path }: LampPlace, load: Load | undefined): string {
  if (load) return load.colour;
  if ('colour' in lamp && typeof lamp.colour === 'string') return lamp.colour;
  const last = path.slice(path.lastIndexOf('.') + 1);
  return COLOURS.find((colour) => last === colour) ?? '';
}

export function letterOf(colour: string): string {
  return LETTERS[colour] ?? '·';
}

/** Head and colour without the site: what stands in the list under the site's name. */
export function shortName({ name }: LampPlace, load: Load | undefined): string {
  if (!load) return name.includes(', ') ? name.slice(name.indexOf(', ') + 2) : name;
  return load.colour === '' ? load.label : `${load.label}, ${load.colour}`;
}

/** What an output is used for, for those who listen and for the tooltip. */
export function outputWords({ name, use }: Output): string {
  switch (use.is) {
    case 'free':
      return `${name}: free`;
    case 'serial':
      return `${name}: serial line to the computer`;
    case 'input':
      return `${name}: input, ${use.name}`;
    case 'chain':
      return `${name}: ${use.wire} wire of the chain`;
    case 'lamp':
      return `${name}: ${use.lamp.name}`;
  }
}

/** Value and rings: "680 Ω: blue, grey, brown, gold". */
export function resistorWords({ circuit }: Load): string {
  const { resistor } = circuit;
  // A sync output without a lamp (shared/electrics: `isWire`).
  if (circuit.milliamps === 0) return 'none: a wire to another board';
  if (resistor === 'fitted') return 'in the lamp';
  if (resistor === null) return circuit.source === 'filament' ? 'none: a filament' : 'none will do';
  const bands = bandsOf(resistor, 4) ?? bandsOf(resistor, 5);
  return bands === null ? ohmsText(resistor) : `${ohmsText(resistor)}: ${bands.join(', ')}`;
}

/** "5.0 mA", "1.2 A". */
export function currentText(milliamps: number): string {
  return milliamps >= 1000 ? `${(milliamps / 1000).toFixed(1)} A` : `${milliamps.toFixed(1)} mA`;
}

export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}
