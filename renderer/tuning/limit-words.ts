/** What is said of the limits of a time, with sources. */
import type { Fact } from '../../shared/practice/fact.ts';
import { leastStays } from '../../shared/signals/own-limits.ts';
import { timeText } from '../../shared/workbench/words.ts';
import type { OpenSite } from '../model/document.ts';

export interface LimitLine {
  readonly name: string;
  readonly text: string;
}

/** Least, greatest, and what the practice has, each with where it is from. */
export function limitLines(site: OpenSite, dial: number): LimitLine[] {
  const [limits, named] = [site.program.dials[dial], site.names.dials[dial]];
  if (!limits || !named) return [];
  const { rule, owner } = named;
  const stays = leastStays(named);
  const byRule = (ms: number, end: 0 | 1): string => {
    if (owner && (end === 0 ? owner.min : owner.max) !== ms) return `set here: ${owner.reason}`;
    if (end === 0 && stays) return stays;
    return rule && rule.dial.value[end] === ms ? sourceOf(rule.dial) : 'from the plan';
  };
  const least = { name: 'Least', text: `${timeText(limits.min)} (${trimmed(byRule(limits.min, 0))})` };
  const greatest = { name: 'Greatest', text: `${timeText(limits.max)} (${trimmed(byRule(limits.max, 1))})` };
  const usual = rule && { name: 'Usual', text: `${timeText(rule.usual.value)} (${sourceOf(rule.usual)})` };
  const range = rule?.range && {
    name: 'On the street',
    text: `${timeText(rule.range.value[0])} to ${timeText(rule.range.value[1])} (${sourceOf(rule.range)})`,
  };
  return [least, greatest, ...(usual ? [usual] : []), ...(range ? [range] : [])];
}

/** For the tooltip of the bar. */
export function limitText(site: OpenSite, dial: number): string {
  return limitLines(site, dial)
    .map(({ name, text }) => `${name} ${text}`)
    .join('. ');
}

const CONFIDENCE: Readonly<Partial<Record<Fact<unknown>['confidence'], string>>> = {
  quoted: ', as quoted elsewhere',
  derived: ', worked out from it',
  assumed: ', taken over',
  memory: ', from memory',
};

function sourceOf({ source, confidence }: Fact<unknown>): string {
  const more = CONFIDENCE[confidence] ?? '';
  return source.includes('from memory') ? source : `${source}${more}`;
}

function trimmed(text: string): string {
  return text.replace(/\.$/, '');
}
