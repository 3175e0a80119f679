import { TypedField } from '../fields/typed-field.tsx';
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

/** A figure of a lamp or a board; empty means the usual one. */
export function FigureField({ label, unit, quantity, value, usual, onSet }: Props) {
  return (
    <TypedField<number | undefined>
      class="figure-field"
      label={label}
      unit={unit}
      shown={value === undefined ? '' : String(value)}
      usual={usual}
      hint={figureHint(quantity)}
      read={(text) => readFigure(text, quantity)}
      onSet={(read) => {
        if (read !== value) onSet(read);
      }}
    />
  );
}
