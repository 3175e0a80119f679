/** How one lamp is made, wired and fed; what feeds a board; which resistors are at hand. */
import type { BoardPower, LampElectrics, LayoutElectrics, WireColour } from '../electrics.ts';
import type { Colour, Lamp } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { type Edited, noSuchBoard, noSuchLamp } from './edit.ts';
import { lampAt } from './lamps.ts';
import { withValueAt } from './path.ts';

/** Undefined: the colour that is usual for the lamp's. */
export function wireColour(layout: Layout, path: string, colour: WireColour | undefined): Edited {
  return changed(
    layout,
    path,
    (lamp) => withField(lamp, 'wire', colour),
    (name) => (colour === undefined ? `Gave ${name} its usual wire.` : `Gave ${name} a ${colour} wire.`),
  );
}

/** Replaces all that the document says of the lamp's electrics; fields that are undefined take their defaults. */
export function setCircuit(
  layout: Layout,
  path: string,
  electrics: { [K in keyof LampElectrics]: LampElectrics[K] | undefined },
): Edited {
  const given = Object.fromEntries(Object.entries(electrics).filter(([, value]) => value !== undefined));
  const next = Object.keys(given).length === 0 ? undefined : (given as LampElectrics);
  return changed(
    layout,
    path,
    (lamp) => withField(lamp, 'electrics', next),
    (name) => `Changed the electrics of ${name}.`,
  );
}

/** `activeLow`: lit when the output is low, as with a common anode. */
export function setPolarity(layout: Layout, path: string, activeLow: boolean): Edited {
  return changed(
    layout,
    path,
    (lamp) => withField(lamp, 'activeLow', activeLow || undefined),
    (name) => `${name} is lit when its output is ${activeLow ? 'low' : 'high'}.`,
  );
}

/** Kind of light source; an LED is the default. */
export function setSource(layout: Layout, path: string, source: NonNullable<Lamp['source']>): Edited {
  const kind = source === 'led' ? 'an LED' : 'a filament lamp';
  return changed(
    layout,
    path,
    (lamp) => withField(lamp, 'source', source === 'led' ? undefined : source),
    (name) => `Made ${name} ${kind}.`,
  );
}

/** The electrics, polarity and source of one lamp for all others of its colour on its site. Wires and outputs stay. */
export function likeThis(layout: Layout, path: string, others: readonly string[]): Edited {
  const model = lampAt(layout, path);
  if (model === null) return noSuchLamp(path);
  const { activeLow, source, electrics } = model.lamp;
  let next = layout;
  for (const other of others) {
    const place = lampAt(layout, other);
    if (place === null) return noSuchLamp(other);
    const lamp = withField(
      withField(withField(place.lamp, 'activeLow', activeLow), 'source', source),
      'electrics',
      electrics,
    );
    next = withValueAt(next, other, lamp);
  }
  return { layout: next, said: `Made ${others.length} lamps like ${model.name}.`.slice(0, 400) };
}

/** An empty power is the default: USB at 5 V. */
export function setBoardPower(
  layout: Layout,
  boardId: string,
  power: { [K in keyof BoardPower]: BoardPower[K] | undefined },
): Edited {
  const index = layout.boards.findIndex(({ id }) => id === boardId);
  const board = layout.boards[index];
  if (board === undefined) return noSuchBoard(boardId);
  const given = Object.fromEntries(Object.entries(power).filter(([, value]) => value !== undefined));
  const next = withValueAt(layout, `boards[${index}].power`, Object.keys(given).length === 0 ? undefined : given);
  const from = power.from === 'external' ? 'a supply of its own' : 'USB';
  return { layout: next, said: `${board.name} gets its power from ${from}.` };
}

export function setSeries(layout: Layout, series: NonNullable<LayoutElectrics['series']>): Edited {
  const electrics = { ...layout.electrics, series };
  return { layout: { ...layout, electrics }, said: `Chose resistors of the series ${series}.` };
}

/** What a lamp of a colour is taken for on this layout; undefined takes the figure of data sheets. */
export function setUsual(
  layout: Layout,
  colour: Colour,
  usual: { readonly forward: number | undefined; readonly milliamps: number | undefined },
): Edited {
  const given = Object.fromEntries(Object.entries(usual).filter(([, value]) => value !== undefined));
  const { [colour]: _, ...others } = layout.electrics?.usual ?? {};
  const all = Object.keys(given).length === 0 ? others : { ...others, [colour]: given };
  const { usual: __, ...rest } = layout.electrics ?? {};
  const electrics = Object.keys(all).length === 0 ? rest : { ...rest, usual: all };
  const { electrics: ___, ...plain } = layout;
  const next = Object.keys(electrics).length === 0 ? plain : { ...plain, electrics };
  return { layout: next, said: `Changed what is usual for ${colour} lamps.` };
}

function changed(layout: Layout, path: string, change: (lamp: Lamp) => Lamp, said: (name: string) => string): Edited {
  const place = lampAt(layout, path);
  if (place === null) return noSuchLamp(path);
  return { layout: withValueAt(layout, path, change(place.lamp)), said: said(place.name).slice(0, 400) };
}

/** A copy with the field, or without it where it is undefined. */
function withField<K extends keyof Lamp>(lamp: Lamp, key: K, value: Lamp[K] | undefined): Lamp {
  const { [key]: _, ...rest } = lamp;
  return (value === undefined ? rest : { ...rest, [key]: value }) as Lamp;
}
