import { useSignal } from '@preact/signals';

interface Props {
  readonly label: string;
  readonly unit: 'mm' | '°' | '%';
  readonly value: number | undefined;
  readonly id?: string;
  onSet(value: number): void;
}

const HINTS: Readonly<Record<Props['unit'], string>> = {
  mm: 'Write millimetres such as 96, or 1.6 m.',
  '°': 'Write degrees such as 90.',
  '%': 'Write a share from 0 to 100.',
};
const FACTORS: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000 };

/** A length in mm, or a plain number where lengths make no sense; null: neither. */
export function readNumber(text: string, unit: Props['unit']): number | null {
  const [, figure = '', written = ''] = /^(-?\d+(?:[.,]\d+)?)\s*(mm|cm|m|°|%)?$/i.exec(text.trim()) ?? [];
  if (figure === '') return null;
  const factor =
    unit === 'mm' ? FACTORS[written.toLowerCase() || 'mm'] : written === '' || written === unit ? 1 : undefined;
  return factor === undefined ? null : Number((Number(figure.replace(',', '.')) * factor).toPrecision(9));
}

/** Taken with Enter or when the field is left; what cannot be read stays, with a word on what can. */
export function NumberField({ label, unit, value, id, onSet }: Props) {
  const typed = useSignal<string | null>(null);
  const wrong = useSignal(false);
  const take = (): void => {
    if (typed.value === null) return;
    const read = readNumber(typed.value, unit);
    wrong.value = read === null;
    if (read === null) return;
    typed.value = null;
    if (read !== value) onSet(read);
  };
  return (
    <label class="number-field">
      <span>{label}</span>
      <input
        class="remark"
        {...(id ? { id } : {})}
        inputMode="decimal"
        autoComplete="off"
        value={typed.value ?? (value === undefined ? '' : String(Math.round(value * 10) / 10))}
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
      {wrong.value && <span class="number-wrong">{HINTS[unit]}</span>}
    </label>
  );
}
