import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { MenuList } from './menu-list.tsx';

/** All commands in order, for a pointer; a shell with menus of the system does without. */
export function MenuButton() {
  const { model } = usePanel();
  const isOpen = useSignal(false);
  const place = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    const onOutside = (event: Event): void => {
      if (event.target instanceof Node && !place.current?.contains(event.target)) isOpen.value = false;
    };
    window.addEventListener('pointerdown', onOutside);
    window.addEventListener('focusin', onOutside);
    return () => {
      window.removeEventListener('pointerdown', onOutside);
      window.removeEventListener('focusin', onOutside);
    };
  }, [isOpen]);
  if (model.host.value?.shell !== 'browser') return null;
  return (
    <div class="menu-place" ref={place}>
      <button
        ref={button}
        type="button"
        class="button"
        aria-haspopup="menu"
        aria-expanded={isOpen.value}
        onClick={() => {
          isOpen.value = !isOpen.value;
        }}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
          event.preventDefault();
          event.stopPropagation();
          isOpen.value = true;
        }}
      >
        Menu
      </button>
      {isOpen.value && (
        <MenuList
          onClose={() => {
            isOpen.value = false;
            button.current?.focus();
          }}
        />
      )}
    </div>
  );
}
