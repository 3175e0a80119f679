import { useSignal } from '@preact/signals';

interface Props<T> {
  readonly class: string;
  readonly label: string;
  readonly unit: string;
  /** The value as text, while nothing is being typed. */
  readonly shown: string;
  /** In an empty field. */
  readonly usual?: string;
  readonly id?: string;
  /** What can be written. */
  readonly hint: string;
  /** From what was typed; null when it cannot be read. */
  read(text: string): T | null;
  /** Only with what was read. */
  onSet(value: T): void;
}

/** Taken with Enter or when the field is left; what cannot be read stays, with a word on what can. Escape gives it up. */
export function TypedField<T>({ class: name, label, unit, shown, usual, id, hint, read, onSet }: Props<T>) {
  const typed = useSignal<string | null>(null);
  const wrong = useSignal(false);
  const take = (): void => {
    if (typed.value === null) return;
    const value = read(typed.value);
    wrong.value = value === null;
    if (value === null) return;
    typed.value = null;
    onSet(value);
  };
  return (
    <label class={name}>
      <span>{label}</span>
      <input
        class="remark"
        {...(id ? { id } : {})}
        inputMode="decimal"
        autoComplete="off"
        {...(usual === undefined ? {} : { placeholder: usual })}
        value={typed.value ?? shown}
        aria-invalid={wrong.value}
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
      {wrong.value && <span class="field-wrong">{hint}</span>}
    </label>
  );
}
