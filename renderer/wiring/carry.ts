/** A lamp carried from output to output, by pointer and by keyboard. */
import type { Wiring } from '../model/wiring.ts';

/** A press that moves less than this is a click, px. */
const STILL = 6;
/** A lamp that is held nearer than this to the edge scrolls, px. */
const EDGE = 48;

/** The output whose slot is at this point of the window; null beside all of them. */
function outputAt(x: number, y: number): number | null {
  return outputIn(document.elementFromPoint(x, y));
}

export function outputIn(target: EventTarget | null): number | null {
  const slot = target instanceof Element ? target.closest<HTMLElement>('[data-output]') : null;
  return slot ? Number(slot.dataset.output) : null;
}

/** From a press on a slot on: a click chooses or puts down, a longer way carries the lamp. */
export function startPointer(wiring: Wiring, event: PointerEvent): void {
  const output = outputIn(event.target);
  const lamp = output === null ? null : wiring.lampOn(output);
  if (!lamp || event.button !== 0 || wiring.carried.peek()) return;
  const { clientX, clientY, pointerId, target: slot } = event;
  const isOurs = (it: PointerEvent): boolean => it.pointerId === pointerId;
  let isMoving = false;
  const move = (it: PointerEvent): void => {
    if (!isOurs(it)) return;
    if (!isMoving && Math.hypot(it.clientX - clientX, it.clientY - clientY) < STILL) return;
    if (!isMoving) wiring.pickUp(lamp.path);
    isMoving = true;
    wiring.hover(outputAt(it.clientX, it.clientY));
    scrollNear(slot, it.clientY);
  };
  const end = (it: PointerEvent): void => {
    if (!isOurs(it)) return;
    stop();
    if (!isMoving) return;
    // The click that follows belongs to the way, not to the slot under it.
    window.addEventListener('click', swallow, { capture: true, once: true });
    setTimeout(() => window.removeEventListener('click', swallow, { capture: true }), 0);
    void wiring.putDown();
  };
  const cancel = (): void => {
    stop();
    wiring.letGo();
  };
  const stop = (): void => {
    window.removeEventListener('pointermove', move);
    window.removeEventListener('pointerup', end);
    window.removeEventListener('pointercancel', cancel);
  };
  window.addEventListener('pointermove', move);
  window.addEventListener('pointerup', end);
  window.addEventListener('pointercancel', cancel);
}

/** What is out of sight comes nearer while a lamp is held at the edge. */
function scrollNear(slot: EventTarget | null, y: number): void {
  const around = slot instanceof Element ? slot.closest('.wiring-main') : null;
  if (!around) return;
  const { top, bottom } = around.getBoundingClientRect();
  if (y < top + EDGE) around.scrollBy(0, -EDGE / 4);
  else if (y > bottom - EDGE) around.scrollBy(0, EDGE / 4);
}

function swallow(event: Event): void {
  event.stopPropagation();
  event.preventDefault();
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** True when the key was one that moves, picks up, puts down or lets go. */
export function onKey(wiring: Wiring, board: HTMLElement, { key, target }: KeyboardEvent): boolean {
  const output = outputIn(target);
  if (output === null) return false;
  const carried = wiring.carried.peek();
  const way = ARROWS[key];
  if (way) {
    const next = neighbour(board, output, way);
    board.querySelector<HTMLElement>(`[data-output="${next}"]`)?.focus();
    if (carried) wiring.hover(next);
    return true;
  }
  if (key === 'Enter' || key === ' ') {
    const lamp = wiring.lampOn(output);
    if (carried) void wiring.putDown();
    else if (lamp) wiring.pickUp(lamp.path);
    return true;
  }
  if (key === 'Escape' && carried) {
    wiring.letGo();
    return true;
  }
  return false;
}

/** The nearest slot on that side on the screen; the same one where there is none. */
function neighbour(board: HTMLElement, from: number, [dx, dy]: readonly [number, number]): number {
  const middle = (it: Element): { x: number; y: number } => {
    const { left, top, width, height } = it.getBoundingClientRect();
    return { x: left + width / 2, y: top + height / 2 };
  };
  const slots = [...board.querySelectorAll<HTMLElement>('[data-output]')];
  const here = slots.find((it) => Number(it.dataset.output) === from);
  if (!here) return from;
  const at = middle(here);
  let best = { output: from, cost: Number.POSITIVE_INFINITY };
  for (const slot of slots) {
    const to = middle(slot);
    const along = (to.x - at.x) * dx + (to.y - at.y) * dy;
    const aside = Math.abs((to.x - at.x) * dy) + Math.abs((to.y - at.y) * dx);
    // Left and right stay in their row as long as it goes on.
    const cost = along + aside * (dx === 0 ? 2 : 20);
    if (along > 4 && cost < best.cost) best = { output: Number(slot.dataset.output), cost };
  }
  return best.output;
}
