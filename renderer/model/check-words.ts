/** The lines that a lamp check writes into the log. */
import type { Load } from '../../shared/electrics/model.ts';
import { lampText } from '../../shared/lampcheck/lamps.ts';
import type { CheckResult } from '../../shared/layout/check-record.ts';

/** Longest line of the log. */
const LINE = 400;

/** "Checked Market Cross, Fore Street, red at D2: Market Cross, Quay Hill, red lit instead." */
export function answeredText(load: Load, result: CheckResult, saw: readonly Load[]): string {
  const others = saw
    .filter(({ lamp }) => lamp !== load.lamp)
    .map(lampText)
    .join(' and ');
  const words = {
    right: 'right',
    dark: 'stayed dark',
    dim: 'was dim',
    wrong: others === '' ? 'another lamp lit' : `${others} lit instead`,
    two: others === '' ? 'lit with another lamp' : `lit together with ${others}`,
  }[result];
  return `Checked ${lampText(load)} at ${load.outputName}: ${words}.`.slice(0, LINE);
}
