import { TypedField } from '../../fields/typed-field.tsx';

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

export function NumberField({ label, unit, value, id, onSet }: Props) {
  return (
    <TypedField<number>
      class="number-field"
      label={label}
      unit={unit}
      shown={value === undefined ? '' : String(Math.round(value * 10) / 10)}
      {...(id ? { id } : {})}
      hint={HINTS[unit]}
      read={(text) => readNumber(text, unit)}
      onSet={(read) => {
        if (read !== value) onSet(read);
      }}
    />
  );
}
