/** A point of a road on its way, by keys or with the mouse; one step of undo when it stands. */
import { signal } from '@preact/signals';
import { addPoint, movePoint } from '../../../shared/layout/plan-edit/roads.ts';
import { snapPoint } from '../../../shared/layout/plan-edit/snap.ts';
import type { Model } from '../../model/model.ts';
import { REACH, TOGETHER } from '../moving.ts';
import type { Point } from '../vectors.ts';

/** Point `index` of a road; `isNew`: one that is put in before it. */
export interface Bend {
  readonly road: string;
  readonly index: number;
  readonly isNew: boolean;
  readonly at: Point;
}

export class Bending {
  readonly now = signal<Bend | null>(null);
  readonly #model: Model;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(model: Model) {
    this.#model = model;
  }

  /** Points of a road as they are to be drawn now. */
  points(road: string, points: readonly (readonly [number, number])[]): Point[] {
    const all = points.map(([x, y]) => ({ x, y }));
    const bend = this.now.value;
    if (bend?.road !== road) return all;
    all.splice(bend.index, bend.isNew ? 0 : 1, bend.at);
    return all;
  }

  /** With the mouse: drawn to what is near. */
  drag(bend: Bend): void {
    const { plan, open } = this.#model;
    const { layout } = open.peek();
    if (!layout) return;
    if (!plan.snaps.peek()) {
      this.now.value = bend;
      return;
    }
    const points = layout.roads?.find(({ id }) => id === bend.road)?.points ?? [];
    const beside = [points[bend.index - 1], points[bend.isNew ? bend.index : bend.index + 1]].flatMap((point) =>
      point ? [{ x: point[0], y: point[1] }] : [],
    );
    const rules = { reach: REACH * plan.camera.scale.peek(), grid: plan.grid.peek(), beside, own: bend.road };
    const { x, y, to } = snapPoint(layout, bend.at, rules);
    plan.snapped.value = to ?? '';
    this.now.value = { ...bend, at: { x, y } };
  }

  /** By keys, mm. */
  step(bend: Bend, by: Point): void {
    const before = this.now.peek();
    const isSame = before?.road === bend.road && before.index === bend.index;
    const at = isSame ? before.at : bend.at;
    this.now.value = { ...bend, at: { x: at.x + by.x, y: at.y + by.y } };
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.stand(), TOGETHER);
  }

  async stand(): Promise<void> {
    clearTimeout(this.#timer);
    const bend = this.now.peek();
    const { plan, open } = this.#model;
    const { layout } = open.peek();
    plan.snapped.value = '';
    if (!bend || !layout) return;
    const { road, index, at, isNew } = bend;
    await plan.make(isNew ? addPoint(layout, road, index - 1, at) : movePoint(layout, road, index, at));
    this.now.value = null;
  }

  giveUp(): void {
    clearTimeout(this.#timer);
    this.#model.plan.snapped.value = '';
    this.now.value = null;
  }
}
