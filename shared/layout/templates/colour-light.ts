/** A colour-light signal, and a whole line of them that share their detectors. */
import type { ColourLight } from '../kinds/colour-light.ts';
import { type LampOutput, outputOf } from './lamp-output.ts';

export interface ColourLightWish {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  /** Default: 3. */
  readonly aspects?: 2 | 3 | 4;
  /**
   * From the top of the head: green, red; green, yellow, red; or yellow, green,
   * yellow, red (Network Rail glossary). Pins, or bits of the chain as `{ bit }`; lamps without one are left out.
   */
  readonly pins: readonly LampOutput[];
  /** Ids of the inputs of the sections ahead, the nearest first. */
  readonly sections?: readonly string[];
  /** Id of the input of a detector at the signal, instead of sections. */
  readonly passing?: string;
}

const HEADS = {
  2: ['green', 'red'],
  3: ['green', 'yellow', 'red'],
  4: ['upperYellow', 'green', 'yellow', 'red'],
} as const;

/** Without sections and passing it runs by time. */
export function makeColourLight(wish: ColourLightWish): ColourLight {
  const { id, name, board, aspects = 3, pins, sections, passing } = wish;
  const lamps: ColourLight['lamps'] = {};
  for (const [index, lamp] of HEADS[aspects].entries()) {
    const pin = pins[index];
    if (pin !== undefined) lamps[lamp] = outputOf(pin);
  }
  return {
    kind: 'colour-light',
    id,
    name,
    board,
    aspects,
    lamps,
    ...(sections === undefined ? {} : { sections: sections.slice(0, aspects - 1) }),
    ...(passing === undefined ? {} : { passing }),
  };
}

/**
 * Signals of one line in the order in which a train passes them. `detectors[k]`
 * is the section behind signal k; a signal looks at as many of them ahead as its
 * aspects tell of, and the last ones of the line at those that are left.
 */
export function makeSignalLine(
  signals: readonly Omit<ColourLightWish, 'sections' | 'passing'>[],
  detectors: readonly string[],
): ColourLight[] {
  return signals.map((signal, index) => makeColourLight({ ...signal, sections: detectors.slice(index) }));
}
