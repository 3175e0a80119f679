/** How the person looks at the plan and works on it; nothing of it is part of the layout. */
import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Finding } from '../../shared/findings/finding.ts';
import { placesOf, type Standing } from '../../shared/layout/plan-edit/loose.ts';
import type { Edited } from '../../shared/layout/wiring/edit.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { Camera, type View } from '../plan/camera.ts';
import type { Point } from '../plan/vectors.ts';
import { Pictures } from '../underlay/pictures.ts';
import type { OpenLayout, OpenSite } from './document.ts';
import type { Preferences } from './preferences.ts';
import { readRecord, withRecord } from './records.ts';

/** What a press on the plan does while it is arranged. */
export type PlanTool = 'move' | 'road' | 'picture' | 'measure';

/** Views of so many layouts are remembered. */
const LAYOUTS = 40;
/** A view is remembered when it has stood still for so long, ms. */
const STILL = 400;
/** One press of a zoom key. */
export const ZOOM_STEP = 1.4;

interface Parts {
  readonly preferences: Preferences;
  readonly open: ReadonlySignal<OpenLayout>;
  readonly siteAtHand: ReadonlySignal<OpenSite | null>;
  readonly change: (text: string, what: string) => Promise<boolean>;
  readonly call: ConstructorParameters<typeof Pictures>[0];
}

export class PlanModel {
  readonly camera = new Camera();
  readonly arranging = signal(false);
  readonly tool = signal<PlanTool>('move');
  /** Id of the road at hand. */
  readonly road = signal<string | null>(null);
  /** Its point at hand. */
  readonly point = signal<number | null>(null);
  /** Points of the road that is being drawn, mm. */
  readonly draft = signal<readonly Point[]>([]);
  /** Two points of the picture whose distance is known, mm on the plan. */
  readonly measured = signal<readonly Point[]>([]);
  /** Why the last edit was not made. */
  readonly refusal = signal<Finding | null>(null);
  /** What the thing that is dragged has snapped to; empty: nothing is dragged, or it stands free. */
  readonly snapped = signal('');
  /** How far the picture under the plan was dragged, mm; null: it stands. */
  readonly pictureWay = signal<Point | null>(null);
  readonly pictures: Pictures;
  readonly isPictureHidden: ReadonlySignal<boolean>;
  readonly snaps: ReadonlySignal<boolean>;
  /** mm. */
  readonly grid: ReadonlySignal<number>;
  readonly #parts: Parts;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(parts: Parts) {
    this.#parts = parts;
    const { preferences, open, siteAtHand } = parts;
    this.snaps = computed(() => preferences.snap.value);
    this.pictures = new Pictures(parts.call);
    this.isPictureHidden = computed(() => {
      const hidden = readRecord(preferences.hiddenPictures.value);
      return hidden[open.value.layout?.name ?? ''] === true;
    });
    this.grid = computed(() => Number(preferences.grid.value));
    const key = computed(() => {
      const name = open.value.layout?.name;
      return name === undefined ? null : `${preferences.distance.value === 'room' ? 'room' : 'near'} ${name}`;
    });
    // Another layout or distance: back to how it was looked at.
    effect(() => {
      if (key.value !== null) this.camera.view.value = this.#recall(key.value);
    });
    effect(() => {
      const view = this.camera.view.value;
      clearTimeout(this.#timer);
      const at = key.peek();
      if (at !== null) this.#timer = setTimeout(() => this.#remember(at, view), STILL);
    });
    // What is needed for it stands beside the plan at the layout alone.
    effect(() => {
      if (preferences.distance.value !== 'layout' && this.arranging.peek()) this.arrange(false);
    });
    // The site that was taken in hand is in sight.
    let hand: string | null = null;
    effect(() => {
      const site = siteAtHand.value;
      const isNew = hand !== null && site !== null && site.id !== hand;
      hand = site?.id ?? hand;
      const place = isNew ? this.placeOf(site.id) : undefined;
      if (place) this.camera.show(place);
    });
  }

  /** Where the plan shows a site, mm. */
  placeOf(site: string): Standing | undefined {
    const { layout } = this.#parts.open.peek();
    const index = layout?.sites.findIndex(({ id }) => id === site) ?? -1;
    return layout ? placesOf(layout)[index] : undefined;
  }

  placeAtHand(): Standing | undefined {
    const site = this.#parts.siteAtHand.peek();
    return site ? this.placeOf(site.id) : undefined;
  }

  /** Makes an edit of the layout, or says why it cannot be made. */
  async make(edited: Edited): Promise<boolean> {
    if ('findings' in edited) {
      this.refusal.value = edited.findings[0] ?? null;
      return false;
    }
    this.refusal.value = null;
    return this.#parts.change(writeLayout(edited.layout), edited.said);
  }

  toggleSnap(): void {
    const { snap } = this.#parts.preferences;
    snap.value = !snap.value;
  }

  setGrid(mm: string): void {
    this.#parts.preferences.grid.value = mm;
  }

  /** On this computer only; the layout keeps it. */
  hidePicture(on: boolean): void {
    const { hiddenPictures } = this.#parts.preferences;
    const name = this.#parts.open.peek().layout?.name ?? '';
    hiddenPictures.value = withRecord(hiddenPictures.peek(), name, on ? true : null, LAYOUTS);
  }

  arrange(on: boolean): void {
    this.arranging.value = on;
    this.take('move');
    if (!on) this.choose(null);
  }

  take(tool: PlanTool): void {
    this.tool.value = tool;
    this.draft.value = [];
    this.measured.value = [];
    this.snapped.value = '';
    this.refusal.value = null;
  }

  choose(road: string | null, point: number | null = null): void {
    if (road !== null && this.tool.peek() !== 'move') this.take('move');
    this.road.value = road;
    this.point.value = point;
    this.refusal.value = null;
  }

  #recall(key: string): View | null {
    const found = readRecord(this.#parts.preferences.planViews.peek())[key];
    const isView = Array.isArray(found) && found.length === 3 && found.every(Number.isFinite);
    const [zoom = 1, x = 0, y = 0] = isView ? (found as number[]) : [];
    return isView && zoom > 1 ? { zoom, x, y } : null;
  }

  #remember(key: string, view: View | null): void {
    const { planViews } = this.#parts.preferences;
    const told = view && [view.zoom, view.x, view.y].map((it) => Math.round(it * 1e5) / 1e5);
    planViews.value = withRecord(planViews.peek(), key, told, LAYOUTS);
  }
}
