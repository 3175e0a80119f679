import type { ComponentChildren } from 'preact';
import { usePanel } from '../model/context.ts';
import { commandById } from './all.ts';
import type { About } from './command.ts';

interface Props {
  readonly id: string;
  /** Instead of the command's own label. */
  readonly children?: ComponentChildren;
  readonly class?: string;
  readonly pressed?: boolean;
  /** The board, and perhaps the port, at which the button stands; without it the board at hand. */
  readonly about?: About;
  readonly label?: string;
}

/** A command as a button. It stays in reach of the keyboard while it cannot be done, and says so. */
export function CommandButton({ id, children, class: className, pressed, about, label }: Props) {
  const { model, surface } = usePanel();
  const command = commandById(id);
  const isReady = command.when(model, about);
  // The key acts on the board at hand, so a button of another board must not promise it.
  const hasKey = command.shortcut !== null && (!about || about.board === model.boardAtHand.value);
  return (
    <button
      type="button"
      class={className ?? 'button'}
      data-command={id}
      title={hasKey ? `${command.hint} (${command.shortcut})` : command.hint}
      aria-disabled={!isReady}
      {...(pressed === undefined ? {} : { 'aria-pressed': pressed })}
      {...(label === undefined ? {} : { 'aria-label': label })}
      onClick={() => {
        if (command.when(model, about)) void command.run(model, surface, about);
      }}
    >
      {children ?? command.name?.(model, about) ?? command.label}
    </button>
  );
}
