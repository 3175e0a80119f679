import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { COMMANDS } from '../commands/all.ts';
import { MENUS, type MenuTitle } from '../commands/command.ts';
import { usePanel } from '../model/context.ts';
import { MenuItem } from './menu-item.tsx';
import { moveIn } from './moves.ts';

interface Props {
  /** Leaves the menu; the keyboard goes back to its button. */
  onClose(): void;
}

/** Titles, and beside them the commands of the one that is open. */
export function MenuList({ onClose }: Props) {
  const { model, surface } = usePanel();
  const open = useSignal<MenuTitle | null>(null);
  const titles = useRef<HTMLDivElement>(null);
  const items = useRef<HTMLDivElement>(null);
  const isKeyed = useRef(false);
  // At once, so that the next key, however quick, is the menu's.
  useLayoutEffect(() => titles.current?.querySelector('button')?.focus(), []);
  useLayoutEffect(() => {
    if (open.value && isKeyed.current) items.current?.querySelector('button')?.focus();
    isKeyed.current = false;
  }, [open.value]);

  const own = COMMANDS.filter(({ menu }) => menu !== undefined && menu === open.value);

  const onTitleKey = (event: KeyboardEvent): void => {
    const title = MENUS.find((it) => (event.target as HTMLElement).dataset.menu === it);
    if (event.key === 'ArrowRight' && title) {
      isKeyed.current = true;
      open.value = title;
    } else if (event.key === 'Escape' || event.key === 'ArrowLeft') onClose();
    else move(event, titles.current, MENUS);
    use(event, onClose);
  };
  const onItemKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' || event.key === 'ArrowLeft') {
      const title = open.value;
      open.value = null;
      if (title) titles.current?.querySelectorAll('button')[MENUS.indexOf(title)]?.focus();
    } else
      move(
        event,
        items.current,
        own.map(({ label }) => label),
      );
    use(event, onClose);
  };

  return (
    <div class="menu">
      <div ref={titles} class="menu-titles" role="menu" tabIndex={-1} aria-label="Menu" onKeyDown={onTitleKey}>
        {MENUS.map((title) => (
          <button
            key={title}
            type="button"
            class="menu-title"
            role="menuitem"
            aria-haspopup="menu"
            aria-expanded={open.value === title}
            tabIndex={-1}
            data-menu={title}
            onClick={(event) => {
              // Enter and Space come without a pointer: the keyboard then goes on in the menu.
              isKeyed.current = event.detail === 0;
              open.value = title;
            }}
          >
            {title}
          </button>
        ))}
      </div>
      {open.value && (
        <div
          key={open.value}
          ref={items}
          class="menu-items"
          role="menu"
          tabIndex={-1}
          aria-label={open.value}
          onKeyDown={onItemKey}
        >
          {own.map((command) => (
            <MenuItem
              key={command.id}
              command={command}
              onChoose={() => {
                onClose();
                void command.run(model, surface);
              }}
            />
          ))}
        </div>
      )}
    </div>
  );
}

/** Moves the keyboard within a list. */
function move(event: KeyboardEvent, list: HTMLDivElement | null, labels: readonly string[]): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const buttons = [...(list?.querySelectorAll('button') ?? [])];
  const next = moveIn(event.key, buttons.indexOf(document.activeElement as HTMLButtonElement), labels);
  if (next !== null) buttons[next]?.focus();
}

/** No key is a command of the window while one is chosen here; Enter and Space press the button, Tab leaves. */
function use(event: KeyboardEvent, onClose: () => void): void {
  event.stopPropagation();
  if (event.key === 'Tab') onClose();
  else if (event.key !== 'Enter' && event.key !== ' ') event.preventDefault();
}
