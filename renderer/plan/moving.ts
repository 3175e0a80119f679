/** A site on its way to another place or turn, by keys or with the mouse; it is one step of undo when it stands. */
import { signal } from '@preact/signals';
import { withinTurn } from '../../shared/layout/new-site/geometry.ts';
import { fallOnRoad, type Snapped, snapSite, snapTurn } from '../../shared/layout/plan-edit/snap.ts';
import { standSite } from '../../shared/layout/plan-edit/stand.ts';
import type { Model } from '../model/model.ts';
import { ARROWS } from './arrange/pointer.ts';
import type { PlanPlace } from './ground.ts';
import { angleOf, minus, type Point } from './vectors.ts';

/** Keys in quick succession are one way, ms. */
export const TOGETHER = 700;
/** One press of an arrow key, mm; with Shift. */
export const STEP = 10;
export const FINE = 1;
/** One press of a key that turns, degrees; with Shift. */
export const TURN = 15;
export const FINE_TURN = 1;
/** So near on the screen things snap, px. */
export const REACH = 14;

/** With Shift these keys may give another character. */
const TURNS: Readonly<Record<string, number>> = { ',': -1, '<': -1, ';': -1, '.': 1, '>': 1, ':': 1 };

export interface Way {
  readonly site: string;
  /** From where it stood, mm. */
  readonly by: Point;
  /** From how it stood, degrees. */
  readonly turn?: number;
}

export class Moving {
  /** Which site is on its way, and how far; null when all stand. */
  readonly now = signal<Way | null>(null);
  readonly #model: Model;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(model: Model) {
    this.#model = model;
  }

  /** A transform that shows a site on its way. */
  transform(site: string): string {
    const way = this.now.value;
    if (way?.site !== site) return '';
    const place = this.place(site);
    const turn = way.turn && place ? ` rotate(${way.turn} ${place.x} ${place.y})` : '';
    return `${this.shift(site)}${turn}`;
  }

  /** The same without its turn: names stay upright. */
  shift(site: string): string {
    const way = this.now.value;
    return way?.site === site ? `translate(${way.by.x} ${way.by.y})` : '';
  }

  /** Where the plan has it now. */
  place(site: string): PlanPlace | null {
    return this.#model.plan.placeOf(site) ?? null;
  }

  /** True when the key was one that moves or turns. It stands when no more keys come. */
  key(site: string, key: string, isFine = false): boolean {
    const [step, turn] = [ARROWS[key], TURNS[key]];
    if ((!step && turn === undefined) || !this.place(site)) return false;
    const before = this.now.peek();
    const way: Way = before?.site === site ? before : { site, by: { x: 0, y: 0 } };
    const length = isFine ? FINE : STEP;
    if (step) this.now.value = { ...way, by: { x: way.by.x + step.x * length, y: way.by.y + step.y * length } };
    else this.now.value = { ...way, turn: (way.turn ?? 0) + (turn ?? 0) * (isFine ? FINE_TURN : TURN) };
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.stand(), TOGETHER);
    return true;
  }

  to(site: string, by: Point): void {
    this.now.value = { site, by };
  }

  /** With the mouse: drawn to what is near. */
  drag(site: string, by: Point): void {
    const place = this.place(site);
    const { plan, open } = this.#model;
    const { layout } = open.peek();
    if (!place || !layout) return;
    if (!plan.snaps.peek()) {
      this.to(site, by);
      return;
    }
    const at = { x: place.x + by.x, y: place.y + by.y, turn: place.turn };
    const found: Snapped = snapSite(layout, site, at, {
      reach: REACH * plan.camera.scale.peek(),
      grid: plan.grid.peek(),
    });
    plan.snapped.value = found.to ?? '';
    const turn = found.turn === undefined ? 0 : shortest(found.turn - place.turn);
    this.now.value = { site, by: { x: found.x - place.x, y: found.y - place.y }, ...(turn !== 0 && { turn }) };
  }

  /** The handle of a site is at a point: it turns there. `aside`: the handle is so many degrees off its up. */
  turnTowards(site: string, at: Point, aside = 0): void {
    const place = this.place(site);
    const { plan, open } = this.#model;
    const { layout } = open.peek();
    if (!place || !layout) return;
    const free = withinTurn(angleOf(minus(at, place)) - aside);
    const found = plan.snaps.peek() ? snapTurn(layout, place, free) : { turn: Math.round(free), to: null };
    plan.snapped.value = `${Math.round(found.turn)}°${found.to === null ? '' : `, ${found.to}`}`;
    this.now.value = { site, by: { x: 0, y: 0 }, turn: shortest(found.turn - place.turn) };
  }

  /** Back to where it stood. */
  giveUp(): void {
    clearTimeout(this.#timer);
    this.#model.plan.snapped.value = '';
    this.now.value = null;
  }

  /** Writes where it stands into the layout. */
  async stand(): Promise<void> {
    clearTimeout(this.#timer);
    const way = this.now.peek();
    const { layout } = this.#model.open.peek();
    const place = way && this.place(way.site);
    this.#model.plan.snapped.value = '';
    if (!way || !place || !layout) return;
    const { by, turn = 0 } = way;
    const isMoved = by.x !== 0 || by.y !== 0;
    const free = { x: place.x + by.x, y: place.y + by.y, turn: place.turn + turn };
    // A crossing that was brought over a road by keys falls onto it as one that was dragged does.
    const fallen = isMoved && this.#model.plan.snaps.peek() ? fallOnRoad(layout, way.site, free) : null;
    const next = standSite(
      layout,
      way.site,
      fallen ? { x: fallen.x, y: fallen.y, turn: fallen.turn ?? free.turn } : free,
    );
    const name = layout.sites.find(({ id }) => id === way.site)?.name ?? way.site;
    const said = turn === 0 ? `Moved ${name}.` : isMoved ? `Moved and turned ${name}.` : `Turned ${name}.`;
    if (next !== layout) await this.#model.plan.make({ layout: next, said });
    this.now.value = null;
  }
}

/** The same turn, from -180 up to 180. */
function shortest(turn: number): number {
  const positive = withinTurn(turn);
  return positive > 180 ? positive - 360 : positive;
}
