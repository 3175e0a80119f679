/** A site on its way to another place, by arrow keys or with the mouse; it is one step of undo when it stands. */
import { signal } from '@preact/signals';
import { moveSite } from '../../shared/layout/new-site/move.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Model } from '../model/model.ts';
import type { Point } from './vectors.ts';

/** Arrow keys in quick succession are one way, ms. */
const TOGETHER = 700;
/** One press of an arrow key, mm. */
const STEP = 10;

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -STEP, y: 0 },
  ArrowRight: { x: STEP, y: 0 },
  ArrowUp: { x: 0, y: -STEP },
  ArrowDown: { x: 0, y: STEP },
};

export class Moving {
  /** Which site is on its way, and how far, mm; null when all stand. */
  readonly now = signal<{ readonly site: string; readonly by: Point } | null>(null);
  readonly #model: Model;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(model: Model) {
    this.#model = model;
  }

  /** Whether the site has a place of its own that can be changed. */
  canMove(site: string): boolean {
    return this.#model.open.value.layout?.sites.find(({ id }) => id === site)?.place !== undefined;
  }

  /** True when the key was one that moves. It stands when no more keys come. */
  key(site: string, key: string): boolean {
    const step = ARROWS[key];
    if (!step || !this.canMove(site)) return false;
    const before = this.now.peek();
    const by = before?.site === site ? before.by : { x: 0, y: 0 };
    this.to(site, { x: by.x + step.x, y: by.y + step.y });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.stand(), TOGETHER);
    return true;
  }

  to(site: string, by: Point): void {
    this.now.value = { site, by };
  }

  /** Writes where it stands into the layout. */
  async stand(): Promise<void> {
    clearTimeout(this.#timer);
    const way = this.now.peek();
    const { layout } = this.#model.open.peek();
    if (!way || !layout) return;
    const moved = moveSite(layout, way.site, way.by);
    const name = layout.sites.find(({ id }) => id === way.site)?.name ?? way.site;
    if (moved !== layout) await this.#model.change(writeLayout(moved), `Moved ${name}.`);
    this.now.value = null;
  }
}
