/** The lamps of a virtual layout, head by head, as somebody who stands before it would see them. */
import type { Glow, Load } from '../../shared/electrics/model.ts';
import { inCheckOrder } from '../../shared/lampcheck/lamps.ts';
import type { LayoutGlow } from '../../shared/workbench/contract.ts';

export interface SeenLamp {
  readonly lamp: number;
  readonly head: number;
  readonly colour: string;
  readonly glow: Glow;
}

export interface SeenHead {
  readonly key: string;
  readonly name: string;
  readonly lamps: readonly SeenLamp[];
}

export interface SeenSite {
  readonly name: string;
  readonly heads: readonly SeenHead[];
}

export function seenLayout(loads: readonly Load[], glow: LayoutGlow): SeenSite[] {
  const sites = new Map<string, { name: string; heads: Map<string, { name: string; lamps: SeenLamp[] }> }>();
  for (const load of inCheckOrder(loads)) {
    const key = load.site ?? '';
    const site = sites.get(key) ?? { name: load.site === null ? 'Others' : load.siteName, heads: new Map() };
    sites.set(key, site);
    for (const [index, { id, name }] of load.heads.entries()) {
      const head = site.heads.get(id) ?? { name, lamps: [] };
      site.heads.set(id, head);
      head.lamps.push({
        lamp: load.lamp,
        head: index,
        colour: load.colour,
        glow: glow[load.lamp]?.[index] ?? 'dark',
      });
    }
  }
  return [...sites.values()].map(({ name, heads }) => ({
    name,
    heads: [...heads].map(([key, head]) => ({ key, ...head })),
  }));
}

/** "red lit, green dim", or "dark". */
export function headText({ lamps }: SeenHead): string {
  const shining = lamps.filter(({ glow }) => glow !== 'dark');
  const words = shining.map(({ colour, glow }) => `${colour || 'lamp'} ${glow === 'bright' ? 'too bright' : glow}`);
  return words.join(', ') || 'dark';
}
