import { useSignal } from '@preact/signals';
import { figureHint, type Quantity, readFigure } from './figure.ts';

interface Props {
  readonly label: string;
  readonly unit: string;
  readonly quantity: Quantity;
  /** What the document says; undefined where the default counts. */
  readonly value: number | undefined;
  /** What counts then. */
  readonly usual: string;
  onSet(value: number | undefined): void;
}

/** A figure of a lamp or a board; empty means the usual one. Taken with Enter or when the field is left. */
export function FigureField({ label, unit, quantity, value, usual, onSet }: Props) {
  const typed = useSignal<string | null>(null);
  const wrong = useSignal(false);
  const take = (): void => {
    if (typed.value === null) return;
    const read = readFigure(typed.value, quantity);
    wrong.value = read === null;
    if (read === null) return;
    typed.value = null;
    if (read !== value) onSet(read);
  };
  return (
    <label class="figure-field">
      <span>{label}</span>
      <input
        class="remark"
        inputMode="decimal"
        autoComplete="off"
        placeholder={usual}
        value={typed.value ?? value ?? ''}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
        }}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') {
            event.preventDefault();
            take();
          } else if (event.key === 'Escape' && typed.value !== null) {
            event.stopPropagation();
            typed.value = null;
            wrong.value = false;
          }
        }}
      />
      <span>{unit}</span>
      {wrong.value && <span class="figure-wrong">{figureHint(quantity)}</span>}
    </label>
  );
}
