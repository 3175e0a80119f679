/** Single keys while the check asks: they come before the commands of the window. */
import { useEffect, useRef } from 'preact/hooks';
import { usePanel } from '../model/context.ts';

export function useCheckKeys(keys: Readonly<Record<string, () => void>>): void {
  const { model, surface } = usePanel();
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const act = latest.current[event.key];
      const isHeld = event.ctrlKey || event.metaKey || event.altKey;
      // What lies over the check has the keys.
      if (surface.finder.value || surface.sheet.value === 'help') return;
      if (!act || isHeld || event.repeat || !model.preferences.singleKeys.value) return;
      if (event.target instanceof HTMLElement && event.target.matches('input:not([type="radio"]), select, textarea'))
        return;
      event.preventDefault();
      event.stopPropagation();
      act();
    };
    window.addEventListener('keydown', onKey, true);
    return () => window.removeEventListener('keydown', onKey, true);
  }, [model, surface]);
}
