/** Lines of the session log about firmware and replaced boards. */
import type { Who } from '../../../shared/link/requests.ts';
import { SILICON } from '../loader/silicon.ts';
import type { Silicon, Written } from '../loader/types.ts';
import type { BoardPlan } from './document.ts';

/** What became of the kept table: there is none, it outlived the writing, or it was put back from the copy. */
export type KeptFate = 'none' | 'stayed' | 'restored';

export function firmwareText(plan: BoardPlan, who: Who | null, { silicon }: Written, kept: KeptFate): string {
  const wrote = `Wrote firmware ${who?.firmware ?? ''} to ${plan.name} and read it back.`;
  return [wrote, chipText(silicon), KEPT[kept]].filter(Boolean).join(' ');
}

/** A chip that carries less than the one whose image it runs is worth a sentence; null for the others. */
export function chipText({ name, chip, totalMilliamps }: Silicon): string | null {
  const usual = SILICON.find((it) => it.chip === chip && it.totalMilliamps > totalMilliamps);
  if (!usual) return null;
  return `Its chip is an ${name}: ${totalMilliamps} mA for all lamps together, where an ${usual.name} has ${usual.totalMilliamps} mA.`;
}

const KEPT: Readonly<Record<KeptFate, string>> = {
  none: 'It keeps no table yet.',
  stayed: 'It still has what it had kept.',
  restored: 'What it had kept was put back from the copy.',
};

/** `copiedAt`: time of the copy that was put on it, ISO 8601; null when it got the open layout. */
export function replacedText(plan: BoardPlan, port: string, written: Written | null, copiedAt: string | null): string {
  const firmware = written ? ' It got the firmware first.' : '';
  const table = copiedAt
    ? 'It runs and keeps what the old board had kept.'
    : 'It runs and keeps the open layout; there was no copy of what the old board had kept.';
  const chip = written && chipText(written.silicon);
  return [`Put a new board in the place of ${plan.name}, at ${port}.${firmware}`, table, chip]
    .filter(Boolean)
    .join(' ');
}
