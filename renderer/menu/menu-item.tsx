import type { Command } from '../commands/command.ts';
import { usePanel } from '../model/context.ts';

interface Props {
  readonly command: Command;
  onChoose(): void;
}

/** A command in a menu, with its key; what cannot be done says why. */
export function MenuItem({ command, onChoose }: Props) {
  const { model } = usePanel();
  const isReady = command.when(model);
  const why = isReady ? null : (command.why?.(model) ?? null);
  const isOn = command.checked?.(model);
  return (
    <>
      {command.line && <hr class="menu-line" />}
      <button
        type="button"
        class="menu-item"
        role={isOn === undefined ? 'menuitem' : 'menuitemcheckbox'}
        {...(isOn === undefined ? {} : { 'aria-checked': isOn })}
        aria-disabled={!isReady}
        tabIndex={-1}
        onClick={() => {
          if (command.when(model)) onChoose();
        }}
      >
        <span class="menu-check" aria-hidden="true">
          {isOn ? '✓' : ''}
        </span>
        <span class="menu-label">{command.name?.(model) ?? command.label}</span>
        {command.shortcut && <kbd>{command.shortcut}</kbd>}
        {why && <span class="menu-why">{why}</span>}
      </button>
    </>
  );
}
