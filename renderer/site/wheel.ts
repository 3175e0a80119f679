/**
 * The wheel over a dial. It turns the dial that has the keyboard, or on which the pointer has rested: a scroll that
 * was on its way past changes no time.
 */
import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** The pointer lies still on the figure for so long before the wheel is meant for it, ms. */
const REST = 700;
/** One notch of a wheel, px; a touch pad gives it in many small pieces. */
const NOTCH = 60;
/** Lines of a wheel that counts in lines, px. */
const LINE = 20;

/** Whether the wheel would turn it now, so that it can be shown. */
export function useWheel(field: RefObject<HTMLInputElement | null>, onTurn: (steps: number) => void): boolean {
  const [isArmed, setArmed] = useState(false);
  const armed = useRef(false);
  const latest = useRef(onTurn);
  latest.current = onTurn;
  useEffect(() => {
    const input = field.current;
    if (!input) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let rest = 0;
    // A scroll that began elsewhere: whatever comes under the pointer by it is not meant.
    let lastForeign = Number.NEGATIVE_INFINITY;
    const arm = (on: boolean): void => {
      armed.current = on;
      setArmed(on);
    };
    const wait = (): void => {
      clearTimeout(timer);
      timer = setTimeout(() => arm(true), REST);
    };
    const leave = (): void => {
      clearTimeout(timer);
      rest = 0;
      arm(false);
    };
    const onWheel = (event: WheelEvent): void => {
      const isMeant = document.activeElement === input || (armed.current && event.timeStamp - lastForeign > REST);
      if (!isMeant || event.deltaY === 0) {
        lastForeign = event.timeStamp;
        if (!armed.current) wait();
        return;
      }
      // Preact listens passively to wheels; this one must not scroll the view as well.
      event.preventDefault();
      const px = event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? event.deltaY : event.deltaY * LINE;
      if (Math.sign(px) !== Math.sign(rest)) rest = 0;
      rest += px;
      const steps = Math.trunc(rest / NOTCH) || (event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 0 : Math.sign(px));
      if (steps === 0) return;
      rest = 0;
      latest.current(-Math.sign(steps));
    };
    const elsewhere = (event: WheelEvent): void => {
      if (event.target !== input) lastForeign = event.timeStamp;
    };
    input.addEventListener('wheel', onWheel, { passive: false });
    input.addEventListener('pointerenter', wait);
    input.addEventListener('pointerleave', leave);
    window.addEventListener('wheel', elsewhere, { passive: true });
    return () => {
      clearTimeout(timer);
      input.removeEventListener('wheel', onWheel);
      input.removeEventListener('pointerenter', wait);
      input.removeEventListener('pointerleave', leave);
      window.removeEventListener('wheel', elsewhere);
    };
  }, [field]);
  return isArmed;
}
