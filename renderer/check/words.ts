/** What the lamp check says, where more than one part says it. */
import type { Load } from '../../shared/electrics/model.ts';
import type { Standing } from '../../shared/lampcheck/record.ts';
import type { CheckRecord, CheckResult } from '../../shared/layout/check-record.ts';

/** Each answer with its key. */
export const ANSWERS: readonly { readonly result: CheckResult; readonly key: string; readonly label: string }[] = [
  { result: 'right', key: '1', label: 'Right' },
  { result: 'dark', key: '2', label: 'Dark' },
  { result: 'wrong', key: '3', label: 'Wrong lamp' },
  { result: 'dim', key: '4', label: 'Dim' },
  { result: 'two', key: '5', label: 'Two at once' },
];

export const STANDING: Readonly<Record<Standing, string>> = {
  right: 'right',
  dark: 'dark',
  wrong: 'wrong lamp',
  dim: 'dim',
  two: 'lit with another',
  changed: 'output changed, check again',
  unknown: 'not checked yet',
};

/** "red", or what the lamp is where the plan names no colour. */
export function colourOf({ colour }: Load): string {
  return colour === '' ? 'indicator' : colour;
}

/** "Pin D5", "Bit 12 of the chain". */
export function outputOf({ outputName }: Load): string {
  return outputName.startsWith('bit ') ? `Bit ${outputName.slice(4)} of the chain` : `Pin ${outputName}`;
}

/** "20 November 2026, 19:04, Morwenna". */
export function whenAndWho({ began, by }: Pick<CheckRecord, 'began' | 'by'>): string {
  const at = new Date(began);
  const day = at.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });
  const time = at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  return [day, time, ...(by ? [by] : [])].join(', ');
}
