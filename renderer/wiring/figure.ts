/** Figures as a person types them, against the limits of the document. */
import type { z } from 'zod';
import { Milliamps, MOST_VOLTS, Ohms, Volts } from '../../shared/layout/electrics.ts';

export type Quantity = 'volts' | 'milliamps' | 'ohms';

const KINDS: Readonly<Record<Quantity, { readonly schema: z.ZodType<number>; readonly hint: string }>> = {
  volts: { schema: Volts, hint: `Write volts such as 2.1, at most ${MOST_VOLTS}.` },
  milliamps: { schema: Milliamps, hint: 'Write milliamps such as 5, at most 5000.' },
  ohms: { schema: Ohms, hint: 'Write ohms such as 470, 4.7k or 1M.' },
};

/** `4k7` and `4.7k` are 4,700. */
const FIGURE = /^(\d+(?:[.,]\d+)?)\s*([kM]?)(\d*)\s*(?:V|mA|Ω|ohms?)?$/i;
const FACTORS: Readonly<Record<string, number>> = { k: 1e3, m: 1e6 };

/** Undefined: the field is empty, so the default counts. Null: no such figure. */
export function readFigure(text: string, quantity: Quantity): number | null | undefined {
  if (text.trim() === '') return undefined;
  const [, figure = '', unit = '', after = ''] = FIGURE.exec(text.trim()) ?? [];
  if (figure === '' || (unit !== '' && quantity !== 'ohms') || (after !== '' && unit === '')) return null;
  const factor = FACTORS[unit.toLowerCase()] ?? 1;
  const whole = Number(after === '' ? figure.replace(',', '.') : `${figure}.${after}`);
  const read = KINDS[quantity].schema.safeParse(Number((whole * factor).toPrecision(6)));
  return read.success ? read.data : null;
}

export function figureHint(quantity: Quantity): string {
  return KINDS[quantity].hint;
}
