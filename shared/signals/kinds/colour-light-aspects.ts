/** Aspects and lamps of a colour-light signal, and the sections that decide. */
import type { ColourLight } from '../../layout/kinds/colour-light.ts';
import type { Practice, RailwayAspect } from '../../practice/practice.ts';
import type { LampState } from '../../table/model.ts';

export type HeadLamp = keyof ColourLight['lamps'];

/** Aspects of a signal, most restrictive first, each with the lamps that it lights. */
const ASPECTS: readonly { readonly aspect: RailwayAspect; readonly from: number; readonly lit: readonly HeadLamp[] }[] =
  [
    { aspect: 'red', from: 2, lit: ['red'] },
    { aspect: 'yellow', from: 3, lit: ['yellow'] },
    { aspect: 'double-yellow', from: 4, lit: ['upperYellow', 'yellow'] },
    { aspect: 'green', from: 2, lit: ['green'] },
  ];

export function aspectsOf(site: ColourLight): typeof ASPECTS {
  return ASPECTS.filter(({ from }) => from <= site.aspects);
}

/** Lamps of the head from the top. Where a practice has no head of four, the UK's is drawn. */
export function headOf(site: ColourLight, practice: Practice): HeadLamp[] {
  const { fourAspectHead, threeAspectHead } = practice.railway;
  const four = fourAspectHead?.value ?? ['yellow', 'green', 'yellow', 'red'];
  const colours = site.aspects === 4 ? four : threeAspectHead.value;
  const lamps = colours.map((colour, index): HeadLamp => {
    const isUpper = colour === 'yellow' && colours.indexOf('yellow', index + 1) >= 0;
    return isUpper ? 'upperYellow' : colour;
  });
  return site.aspects === 2 ? lamps.filter((lamp) => lamp !== 'yellow') : lamps;
}

/** The sections that decide: one for each aspect but green, each detector once. */
export function decidingSections(site: ColourLight): { readonly id: string; readonly at: number }[] {
  const sections = (site.sections ?? []).slice(0, site.aspects - 1);
  return sections.flatMap((id, at) => (sections.indexOf(id) === at ? [{ id, at }] : []));
}

/** An aspect with the states of the lamps that are wired. */
export interface ShownAspect {
  readonly aspect: RailwayAspect;
  readonly states: readonly LampState[];
}
