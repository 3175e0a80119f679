/** Lines of the session log: one sentence each, past tense, with names instead of numbers. */
import type { Who } from '../../../shared/link/requests.ts';
import type { TableMatch } from '../../../shared/workbench/contract.ts';
import { dialName as nameOfDial } from '../../../shared/workbench/dial-name.ts';
import { timeText } from '../../../shared/workbench/words.ts';
import type { BoardPlan } from './document.ts';
import { chipName } from './failures.ts';

export function siteName(plan: BoardPlan, site: number): string {
  return plan.compiled?.sites[site]?.name ?? (site < 128 ? `site ${site}` : groupName(plan, site - 128));
}

function groupName(plan: BoardPlan, group: number): string {
  return plan.compiled?.table.groups[group]?.name ?? `common cycle ${group}`;
}

export function rowName(plan: BoardPlan, site: number, row: number): string {
  return plan.compiled?.sites[site]?.rows[row]?.label ?? `row ${row}`;
}

export function inputName(plan: BoardPlan, input: number): string {
  return plan.compiled?.table.inputs[input]?.name ?? `input ${input}`;
}

/** "Market Cross green of Fore Street". */
export function dialName(plan: BoardPlan, site: number, dial: number): string {
  if (site >= 128) return `${siteName(plan, site)} cycle`;
  const names = plan.compiled?.sites[site];
  return (names && nameOfDial(names, dial)) ?? `${siteName(plan, site)} dial ${dial}`;
}

type Dials = readonly (readonly number[])[];

export interface DialChange {
  readonly site: number;
  readonly dial: number;
  readonly from: number;
  readonly to: number;
}

export function dialChanges(before: Dials | null, now: Dials | null): DialChange[] {
  return (now ?? []).flatMap((dials, site) =>
    dials.flatMap((to, dial) => {
      const from = before?.[site]?.[dial];
      return from === undefined || from === to ? [] : [{ site, dial, from, to }];
    }),
  );
}

const MOST_NAMED = 6;

/** "Market Cross green of Fore Street 20.0 s, Harbour Crossing lit 0.5 s". */
export function changeList(plan: BoardPlan, changes: readonly DialChange[]): string {
  const named = changes.slice(0, MOST_NAMED).map((c) => `${dialName(plan, c.site, c.dial)} ${timeText(c.to)}`);
  const more = changes.length - named.length;
  return [...named, ...(more > 0 ? [`${more} more`] : [])].join(', ');
}

const RUNNING: Readonly<Record<TableMatch, string>> = {
  unknown: 'What it runs could not be read',
  none: 'It ran nothing',
  same: 'It ran the open layout',
  times: 'It ran the open layout with other times',
  other: 'It ran another layout',
};

export function connectedText(plan: BoardPlan, where: string, who: Who, running: TableMatch, isBack: boolean): string {
  const label = who.name === '' ? '' : `, named "${who.name}"`;
  const begin = isBack ? `${plan.name} came back at ${where}` : `Connected ${plan.name} to ${where}`;
  return `${begin}: ${chipName(who.chip)}, firmware ${who.firmware}${label}. ${RUNNING[running]}.`;
}

const CAUSES: Readonly<Record<string, string>> = {
  power: 'its power came on',
  reset: 'it was reset',
  brownout: 'its supply had dropped too low',
  watchdog: 'it had hung and ended that by itself',
};

export function restartedText(plan: BoardPlan, cause: string): string {
  return `${plan.name} started anew: ${CAUSES[cause] ?? 'the cause is not known'}.`;
}

export const hex = (value: number): string => value.toString(16).toUpperCase().padStart(4, '0');
