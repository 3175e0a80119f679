import { type ReadonlySignal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

/** ms. */
const STILL = 180;

/** The value once it has stood still; at first at once. */
export function useSettled<T>(value: ReadonlySignal<T>): T {
  const settled = useSignal(value.peek());
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const end = value.subscribe((now) => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        settled.value = now;
      }, STILL);
    });
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [value, settled]);
  return settled.value;
}
