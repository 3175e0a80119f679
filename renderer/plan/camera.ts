/** Which part of the baseboard is seen, and how large. */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Box } from './shapes.ts';
import type { Point } from './vectors.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** `zoom`: 1 shows the whole plan; x and y are in the middle, mm. */
export interface View extends Point {
  readonly zoom: number;
}

/** As near as one comes, px for each mm of the baseboard. */
const NEAREST = 4;
const LEAST_MOST = 8;

export class Camera {
  /** Size of the plan on the screen, px. */
  readonly frame = signal<Size>({ width: 800, height: 600 });
  /** Size of the baseboard, mm. */
  readonly board = signal<Size>({ width: 600, height: 600 });
  /** What the person chose; null: the whole plan. */
  readonly view = signal<View | null>(null);
  /** mm in one px when the whole plan is seen. */
  readonly whole: ReadonlySignal<number> = computed(() => {
    const { width, height } = this.frame.value;
    return Math.max(this.board.value.width / width, this.board.value.height / height);
  });
  /** mm in one px now. */
  readonly scale: ReadonlySignal<number> = computed(() => this.whole.value / (this.view.value?.zoom ?? 1));
  readonly isWhole: ReadonlySignal<boolean> = computed(() => this.view.value === null);
  /** So near that much of the plan is out of sight. */
  readonly isClose: ReadonlySignal<boolean> = computed(() => (this.view.value?.zoom ?? 1) > 1.1);
  readonly box: ReadonlySignal<Box> = computed(() => {
    const { width, height } = this.frame.value;
    const { x, y } = this.view.value ?? this.middle();
    const half = { x: (width * this.scale.value) / 2, y: (height * this.scale.value) / 2 };
    return { left: x - half.x, top: y - half.y, right: x + half.x, bottom: y + half.y };
  });

  get zoom(): number {
    return this.view.peek()?.zoom ?? 1;
  }

  /** Of a point in px from the top left corner of the frame. */
  onBoard({ x, y }: Point): Point {
    const { left, top } = this.box.peek();
    const scale = this.scale.peek();
    return { x: left + x * scale, y: top + y * scale };
  }

  /** `anchor`, mm, stays where it is on the screen; without one the middle does. */
  zoomBy(factor: number, anchor?: Point): void {
    const now = this.view.peek() ?? { ...this.middle(), zoom: 1 };
    const zoom = Math.min(this.#most(), Math.max(1, now.zoom * factor));
    if (zoom <= 1.001) {
      this.view.value = null;
      return;
    }
    const at = anchor ?? now;
    const kept = now.zoom / zoom;
    this.look({ zoom, x: at.x + (now.x - at.x) * kept, y: at.y + (now.y - at.y) * kept });
  }

  /** px. Nothing happens while the whole plan is seen: there is nowhere to go. */
  panBy(by: Point): void {
    const now = this.view.peek();
    if (!now) return;
    const scale = this.scale.peek();
    this.look({ ...now, x: now.x - by.x * scale, y: now.y - by.y * scale });
  }

  /** As far as the edges of the baseboard, and not beyond them. */
  look(view: View): void {
    const { width, height } = this.board.peek();
    const frame = this.frame.peek();
    const zoom = Math.min(this.#most(), Math.max(1, view.zoom));
    const scale = this.whole.peek() / zoom;
    const x = within(view.x, width, frame.width * scale);
    const y = within(view.y, height, frame.height * scale);
    this.view.value = zoom <= 1.001 ? null : { zoom, x, y };
  }

  /** Brings a place into the middle unless it is well in sight. */
  show(place: Point): void {
    const now = this.view.peek();
    if (!now) return;
    const { left, top, right, bottom } = this.box.peek();
    const edge = { x: (right - left) * 0.12, y: (bottom - top) * 0.12 };
    const isSeen =
      place.x > left + edge.x && place.x < right - edge.x && place.y > top + edge.y && place.y < bottom - edge.y;
    if (!isSeen) this.look({ ...now, ...{ x: place.x, y: place.y } });
  }

  middle(): Point {
    const { width, height } = this.board.value;
    return { x: width / 2, y: height / 2 };
  }

  #most(): number {
    return Math.max(LEAST_MOST, this.whole.peek() * NEAREST);
  }
}

/** The middle of a window of a size onto something that is `whole` long. */
function within(middle: number, whole: number, window: number): number {
  if (window >= whole) return whole / 2;
  return Math.min(whole - window / 2, Math.max(window / 2, middle));
}

/** Symbols are laid out anew at each doubling, so that they grow less than the streets do. */
export function detailOf(zoom: number): number {
  return 2 ** Math.floor(Math.log2(Math.max(1, zoom)) + 1e-6);
}
