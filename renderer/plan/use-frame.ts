import type { RefObject } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import type { Camera } from './camera.ts';

/** Tells the camera how large the plan is on the screen. */
export function useFrame(frame: RefObject<HTMLElement | null>, camera: Camera): void {
  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = (): void => {
      const { clientWidth: width, clientHeight: height } = element;
      const before = camera.frame.peek();
      if (width > 0 && height > 0 && (width !== before.width || height !== before.height)) {
        camera.frame.value = { width, height };
      }
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [frame, camera]);
}
