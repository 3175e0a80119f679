import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

export interface Choice {
  readonly id: string;
  readonly name: string;
  readonly hint?: string;
  readonly picture?: ComponentChildren;
}

interface Props {
  readonly label: string;
  readonly choices: readonly Choice[];
  readonly chosen: string;
  onChoose(id: string): void;
  /** Enter, or a click: this one, and on. */
  onTake(id: string): void;
}

/** One big choice: a click takes it and goes on; arrow keys look around, Enter takes. */
export function Choices({ label, choices, chosen, onChoose, onTake }: Props) {
  const group = useRef<HTMLDivElement>(null);
  useEffect(() => group.current?.querySelector<HTMLElement>('[tabindex="0"]')?.focus(), []);
  const move = (to: number): void => {
    const next = choices[Math.max(0, Math.min(choices.length - 1, to))];
    if (!next) return;
    onChoose(next.id);
    group.current?.querySelector<HTMLElement>(`[data-choice="${next.id}"]`)?.focus();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const now = choices.findIndex(({ id }) => id === chosen);
    const columns = group.current ? getComputedStyle(group.current).gridTemplateColumns.split(' ').length : 1;
    const steps: Readonly<Record<string, number>> = {
      ArrowRight: 1,
      ArrowLeft: -1,
      ArrowDown: columns,
      ArrowUp: -columns,
      Home: -choices.length,
      End: choices.length,
    };
    const by = steps[event.key];
    if (by !== undefined) {
      event.preventDefault();
      move(now + by);
    } else if (/^[a-z0-9]$/i.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey) {
      // Letters are names here, not commands.
      event.preventDefault();
      const begins = ({ name }: Choice): boolean => name.toLowerCase().startsWith(event.key.toLowerCase());
      const found = [...choices.slice(now + 1), ...choices.slice(0, now + 1)].find(begins);
      if (found) move(choices.indexOf(found));
    }
  };
  return (
    <div ref={group} class="start-choices" role="radiogroup" aria-label={label} onKeyDown={onKeyDown}>
      {choices.map(({ id, name, hint, picture }) => (
        // biome-ignore lint/a11y/useSemanticElements: a card with a picture and lines of text
        <button
          key={id}
          type="button"
          class="start-choice"
          role="radio"
          data-choice={id}
          aria-checked={id === chosen}
          aria-label={name}
          {...(hint === undefined ? {} : { 'aria-describedby': `choice-${id}` })}
          tabIndex={id === chosen ? 0 : -1}
          onClick={() => onTake(id)}
        >
          {picture}
          <span class="start-choice-name">{name}</span>
          {hint !== undefined && (
            <span class="start-choice-hint" id={`choice-${id}`}>
              {hint}
            </span>
          )}
        </button>
      ))}
    </div>
  );
}
