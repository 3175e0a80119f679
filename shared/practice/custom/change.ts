/** Changes of an owner, put into a practice. */
import { type Aspect, type Fact, type FlashRule, fact, type Practice, type Span, type TimeRule } from '../practice.ts';
import { type ChangeKey, isTimeRule, valueAt } from './keys.ts';

/** What a layout can write: seconds, metres, yes or no, a word, or null for "there is none". */
export type Change = number | boolean | string | null;

const OWNER = 'chosen by the owner';

export function applyChanges(practice: Practice, changes: readonly (readonly [ChangeKey, Change])[]): Practice {
  const changedKeys = new Set(changes.map(([at]) => at.key));
  const put = changes.reduce(
    (own, [at, change]) => replaced(own, at.key, changed(valueAt(own, at.key), at, change)),
    practice,
  );
  return settleOrder(settleRates(put, changedKeys), changedKeys);
}

function changed(old: unknown, { kind, model }: ChangeKey, change: Change): TimeRule | Fact<unknown> | null {
  if (change === null) return null;
  const value = kind === 'time' && typeof change === 'number' ? Math.round(change * 1000) : change;
  const chosen = fact(value, 'owner', OWNER);
  const rule = isTimeRule(old) ? old : isTimeRule(model) ? model : null;
  if (rule === null || typeof value !== 'number') return chosen;
  return {
    name: rule.name,
    usual: fact(value, 'owner', OWNER),
    // A range that the owner has left says nothing about the rules of this layout.
    range: rule === old && rule.range !== null && inside(value, rule.range.value) ? rule.range : null,
    dial:
      value === 0 || inside(value, rule.dial.value) ? rule.dial : fact(widened(rule.dial.value, value), 'owner', OWNER),
  };
}

function inside(value: number, [least, greatest]: Span): boolean {
  return value >= least && value <= greatest;
}

function widened([least, greatest]: Span, value: number): Span {
  return [Math.min(least, value), Math.max(greatest, value)];
}

function replaced(practice: Practice, key: string, value: unknown): Practice {
  const [kind = '', field] = key.split('.');
  const rules = (practice as unknown as Readonly<Record<string, object>>)[kind];
  return { ...practice, [kind]: field === undefined ? value : { ...rules, [field]: value } };
}

/** With or without red with amber the aspects come in another order. */
function settleOrder(practice: Practice, keys: ReadonlySet<string>): Practice {
  if (!keys.has('junction.redWithAmber')) return practice;
  const { order, redWithAmber } = practice.junction;
  const rest = order.value.filter((aspect) => aspect !== 'red-with-amber');
  const [first = 'red', ...others] = rest;
  const aspects: Aspect[] = redWithAmber === null ? rest : [first, 'red-with-amber', ...others];
  return replaced(practice, 'junction.order', fact(aspects, 'owner', OWNER));
}

/** Lit time, dark time and the rule for their rate. */
const FLASHES = [
  ['pelican.flashOn', 'pelican.flashOff', 'pelican.flashRate'],
  ['crossing.flashOn', 'crossing.flashOff', 'crossing.flashRate'],
  ['levelCrossing.flashOn', 'levelCrossing.flashOff', 'levelCrossing.flashRate'],
  ['lamps.indicatorOn', 'lamps.indicatorOff', 'lamps.indicatorRate'],
  ['lamps.emergencyOn', 'lamps.emergencyOff', 'lamps.emergencyRate'],
] as const;

/** A flash that the owner chose is not held against the rule that it leaves: the rule widens to take it in. */
function settleRates(practice: Practice, keys: ReadonlySet<string>): Practice {
  return FLASHES.reduce((own, [on, off, rate]) => {
    const rule = valueAt(own, rate) as FlashRule | null;
    if (rule === null || !(keys.has(on) || keys.has(off))) return own;
    const lit = (valueAt(own, on) as TimeRule).usual.value;
    const period = lit + (valueAt(own, off) as TimeRule).usual.value;
    const perMinute = takingIn(rule.perMinute, 60000 / period);
    return replaced(own, rate, { perMinute, lit: rule.lit === null ? null : takingIn(rule.lit, lit / period) });
  }, practice);
}

function takingIn(span: Fact<Span>, value: number): Fact<Span> {
  return inside(value, span.value) ? span : fact(widened(span.value, value), 'owner', OWNER);
}
