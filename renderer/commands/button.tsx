import type { ComponentChildren } from 'preact';
import { usePanel } from '../model/context.ts';
import { commandById } from './all.ts';

interface Props {
  readonly id: string;
  /** Instead of the command's own label. */
  readonly children?: ComponentChildren;
  readonly class?: string;
  readonly pressed?: boolean;
}

/** A command as a button. It stays in reach of the keyboard while it cannot be done, and says so. */
export function CommandButton({ id, children, class: className, pressed }: Props) {
  const { model, surface } = usePanel();
  const command = commandById(id);
  const isReady = command.when(model);
  const key = command.shortcut === null ? '' : ` (${command.shortcut})`;
  return (
    <button
      type="button"
      class={className ?? 'button'}
      data-command={id}
      title={`${command.hint}${key}`}
      aria-disabled={!isReady}
      {...(pressed === undefined ? {} : { 'aria-pressed': pressed })}
      onClick={() => {
        if (command.when(model)) void command.run(model, surface);
      }}
    >
      {children ?? command.label}
    </button>
  );
}
