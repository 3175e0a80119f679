import type { Signal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { timeText } from '../../shared/workbench/words.ts';
import { spokenTime } from '../model/time.ts';
import { useWheel } from './wheel.ts';

/** Steps of the large keys. */
const PAGE = 5;

interface Props {
  readonly id: string;
  readonly name: string;
  /** ms, as the limits. */
  readonly shown: number;
  readonly limits: { readonly min: number; readonly max: number };
  readonly canTurn: boolean;
  /** What is being typed; null while nothing is. */
  readonly typed: Signal<string | null>;
  readonly describedBy: string;
  readonly isWrong: boolean;
  onTurn(steps: number): void;
  onType(): void;
  onCommit(): void;
  onGiveUp(): void;
}

/** The figure of a dial: arrow keys, wheel, or typed. */
export function DialField(props: Props) {
  const { id, name, shown, limits, canTurn, typed } = props;
  const field = useRef<HTMLInputElement>(null);
  const isArmed = useWheel(field, props.onTurn);

  // What is typed next replaces the time; a new time on the screen would have undone the selection.
  useLayoutEffect(() => {
    if (typed.peek() === null && document.activeElement === field.current) field.current?.select();
  }, [shown, typed]);

  return (
    <input
      ref={field}
      class="dial-value"
      id={`dial-${id}`}
      data-dial-field
      data-typing={typed.value !== null}
      data-wheel={isArmed && canTurn}
      role="spinbutton"
      inputMode="decimal"
      autoComplete="off"
      aria-label={name}
      aria-valuenow={shown / 1000}
      aria-valuemin={limits.min / 1000}
      aria-valuemax={limits.max / 1000}
      aria-valuetext={spokenTime(shown)}
      aria-describedby={props.describedBy}
      aria-invalid={props.isWrong}
      readOnly={!canTurn}
      value={typed.value ?? timeText(shown)}
      onFocus={(event) => event.currentTarget.select()}
      onClick={(event) => {
        if (typed.value === null) event.currentTarget.select();
      }}
      onInput={(event) => {
        typed.value = event.currentTarget.value;
        props.onType();
      }}
      onBlur={props.onCommit}
      onKeyDown={(event) => {
        const steps: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1, PageUp: PAGE, PageDown: -PAGE };
        const by = steps[event.key];
        if (by !== undefined) {
          event.preventDefault();
          props.onTurn(by);
        } else if (event.key === 'Enter') {
          props.onCommit();
          event.currentTarget.select();
        } else if (event.key === 'Escape' && typed.value !== null) {
          event.stopPropagation();
          props.onGiveUp();
        }
      }}
    />
  );
}
