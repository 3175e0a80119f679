import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';
import { ARROWS } from './arrange/pointer.ts';
import type { Camera } from './camera.ts';
import type { Point } from './vectors.ts';

/** px that a pointer may stray in a press. */
export const STRAY = 5;
/** A step of a wheel is about 100. */
const WHEEL = 0.0016;
/** Two fingers on a pad come as a wheel in small steps. */
const PINCH = 0.01;
const LINE = 16;
/** One press of an arrow key with Ctrl, px. */
const KEY = 80;

/**
 * Wheel and two fingers zoom, one finger or the mouse moves the ground. What has something of its own to drag is
 * marked `data-drags`. Arrow keys with Ctrl move it, too.
 */
export function useGestures(frame: RefObject<HTMLElement | null>, camera: Camera): void {
  useEffect(() => {
    const element = frame.current;
    if (!element) return;
    const at = (event: { clientX: number; clientY: number }): Point => {
      const { left, top } = element.getBoundingClientRect();
      return { x: event.clientX - left, y: event.clientY - top };
    };
    const fingers = new Map<number, Point>();
    let from: Point | null = null;
    let hasMoved = false;

    const onWheel = (event: WheelEvent): void => {
      // In a window that scrolls the wheel scrolls it; with Ctrl, and with two fingers on a pad, it zooms.
      const scrolls = document.documentElement.scrollHeight > window.innerHeight + 1;
      if (event.deltaY === 0 || (scrolls && !event.ctrlKey)) return;
      event.preventDefault();
      const px = event.deltaY * (event.deltaMode === 0 ? 1 : LINE);
      const isPinch = event.ctrlKey && Math.abs(px) < 50;
      camera.zoomBy(Math.exp(-px * (isPinch ? PINCH : WHEEL)), camera.onBoard(at(event)));
    };
    const onDown = (event: PointerEvent): void => {
      if (fingers.size === 0) hasMoved = false;
      const target = event.target instanceof Element ? event.target : null;
      if (event.button !== 0 || !target?.closest('svg.town') || target.closest('[data-drags]')) return;
      fingers.set(event.pointerId, at(event));
      from = at(event);
      if (fingers.size > 1) hasMoved = true;
    };
    const onMove = (event: PointerEvent): void => {
      const before = fingers.get(event.pointerId);
      if (!before || !from) return;
      const now = at(event);
      if (!hasMoved && Math.hypot(now.x - from.x, now.y - from.y) <= STRAY) return;
      if (!hasMoved) {
        hasMoved = true;
        element.setPointerCapture(event.pointerId);
      }
      const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
      if (other) {
        const [was, is] = [before, now].map((it) => Math.max(1, Math.hypot(it.x - other.x, it.y - other.y)));
        const [oldMiddle, middle] = [before, now].map((it) => ({ x: (it.x + other.x) / 2, y: (it.y + other.y) / 2 }));
        if (was && is && oldMiddle && middle) {
          camera.panBy({ x: middle.x - oldMiddle.x, y: middle.y - oldMiddle.y });
          camera.zoomBy(is / was, camera.onBoard(middle));
        }
      } else camera.panBy({ x: now.x - before.x, y: now.y - before.y });
      fingers.set(event.pointerId, now);
    };
    const onUp = (event: PointerEvent): void => {
      fingers.delete(event.pointerId);
      from = fingers.values().next().value ?? null;
    };
    // The press at the end of a drag is none.
    const onClick = (event: MouseEvent): void => {
      if (!hasMoved || event.detail === 0) return;
      hasMoved = false;
      event.stopPropagation();
      event.preventDefault();
    };
    const onKey = (event: KeyboardEvent): void => {
      const way = ARROWS[event.key];
      if (!way || !(event.ctrlKey || event.metaKey) || camera.isWhole.peek()) return;
      event.preventDefault();
      camera.panBy({ x: -way.x * KEY, y: -way.y * KEY });
    };
    // Where the keyboard is, is in sight.
    const onFocus = (event: FocusEvent): void => {
      const target = event.target instanceof SVGGraphicsElement ? event.target : null;
      if (!target?.matches(':focus-visible') || target.closest('[data-drags="picture"], .plan-cursor')) return;
      const { left, top, width, height } = target.getBoundingClientRect();
      const middle = at({ clientX: left + width / 2, clientY: top + height / 2 });
      camera.show(camera.onBoard(middle));
    };
    element.addEventListener('keydown', onKey);
    element.addEventListener('focusin', onFocus);
    element.addEventListener('wheel', onWheel, { passive: false });
    element.addEventListener('pointerdown', onDown);
    element.addEventListener('pointermove', onMove);
    element.addEventListener('pointerup', onUp);
    element.addEventListener('pointercancel', onUp);
    element.addEventListener('click', onClick, { capture: true });
    return () => {
      element.removeEventListener('keydown', onKey);
      element.removeEventListener('focusin', onFocus);
      element.removeEventListener('wheel', onWheel);
      element.removeEventListener('pointerdown', onDown);
      element.removeEventListener('pointermove', onMove);
      element.removeEventListener('pointerup', onUp);
      element.removeEventListener('pointercancel', onUp);
      element.removeEventListener('click', onClick, { capture: true });
    };
  }, [frame, camera]);
}
