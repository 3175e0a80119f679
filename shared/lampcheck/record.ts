/** Records of checks: the latest answer of each lamp, and what an answer is still worth. */
import type { Load } from '../electrics/model.ts';
import type { CheckedLamp, CheckRecord } from '../layout/check-record.ts';
import { isAbout, keyText } from './lamps.ts';

/** Most lamps in a record, as in its schema. */
const MOST = 200;

/**
 * What is known of a lamp. `changed`: it was checked at another output than the one that it has now;
 * `unknown`: never checked.
 */
export type Standing = CheckedLamp['result'] | 'changed' | 'unknown';

export function answerFor(loads: readonly Load[], load: Load, record: CheckRecord | null): CheckedLamp | null {
  const answers = record?.lamps.filter((checked) => isAbout(loads, load, checked)) ?? [];
  return latest(answers);
}

export function standingOf(loads: readonly Load[], load: Load, record: CheckRecord | null): Standing {
  const answer = answerFor(loads, load, record);
  if (answer === null) return 'unknown';
  return answer.output === load.outputName ? answer.result : 'changed';
}

/** Both records in one: of each lamp the later answer. Who, and when it began and ended, is from the one begun later. */
export function mergeRecords(one: CheckRecord | null, other: CheckRecord | null): CheckRecord | null {
  if (one === null || other === null) return one ?? other;
  const [older, newer] = timeOf(one.began) <= timeOf(other.began) ? [one, other] : [other, one];
  const lamps = new Map<string, CheckedLamp>();
  const shared = sharedNames(older, newer);
  for (const checked of [...older.lamps, ...newer.lamps]) {
    const name = keyText(checked);
    const key = shared.has(name) ? `${name}\n${checked.output}` : name;
    const before = lamps.get(key);
    if (!before || timeOf(before.at) <= timeOf(checked.at)) lamps.set(key, checked);
  }
  const all = [...lamps.values()];
  if (all.length <= MOST) return { ...newer, lamps: all };
  const kept = new Set([...all].sort((a, b) => timeOf(b.at) - timeOf(a.at)).slice(0, MOST));
  return { ...newer, lamps: all.filter((checked) => kept.has(checked)) };
}

/** Names that several lamps of one record have: those are told apart by their outputs. */
function sharedNames(...records: readonly CheckRecord[]): Set<string> {
  return new Set(
    records.flatMap(({ lamps }) => {
      const names = lamps.map(keyText);
      return names.filter((name, at) => names.indexOf(name) !== at);
    }),
  );
}

function latest(answers: readonly CheckedLamp[]): CheckedLamp | null {
  return answers.reduce<CheckedLamp | null>(
    (best, it) => (best === null || timeOf(it.at) >= timeOf(best.at) ? it : best),
    null,
  );
}

/** ms since 1970 of `2026-01-31T19:05:00.250+01:00`: sums by hand, since this part of the program has no clock. */
export function timeOf(iso: string): number {
  const found = /^(\d+)-(\d+)-(\d+)T(\d+):(\d+)(?::(\d+(?:\.\d+)?))?(Z|([+-])(\d+):(\d+))$/.exec(iso);
  if (!found) return Number.NaN;
  const [year, month, day, hour, minute] = found.slice(1, 6).map(Number) as [number, number, number, number, number];
  const offset = found[7] === 'Z' ? 0 : Number(`${found[8]}1`) * (Number(found[9]) * 60 + Number(found[10]));
  const minutes = (daysSince1970(year, month, day) * 24 + hour) * 60 + minute - offset;
  return minutes * 60_000 + Math.round(Number(found[6] ?? 0) * 1000);
}

/** Years counted from March on, so that the leap day is the last of its year. */
function daysSince1970(year: number, month: number, day: number): number {
  const y = month > 2 ? year : year - 1;
  const fromMarch = Math.floor((153 * ((month + 9) % 12) + 2) / 5);
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + fromMarch + day - 719_469;
}
