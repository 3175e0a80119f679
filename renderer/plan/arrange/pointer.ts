import type { Camera } from '../camera.ts';
import type { Point } from '../vectors.ts';

/** Where on the baseboard a pointer is, mm. */
export function pointOf(
  event: { clientX: number; clientY: number; currentTarget: EventTarget },
  camera: Camera,
): Point {
  const element = event.currentTarget as SVGElement;
  const { left, top } = (element.ownerSVGElement ?? element).getBoundingClientRect();
  return camera.onBoard({ x: event.clientX - left, y: event.clientY - top });
}

/** Keys that move something; the step in mm is chosen by whoever moves. */
export const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};
