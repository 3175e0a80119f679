/** The practice of a layout: one of ours, or the owner's own made from one of ours. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { error, warning } from '../../findings/make.ts';
import type { CustomPractice } from '../../layout/practice.ts';
import type { Layout } from '../../layout/schema.ts';
import { nearest } from '../../layout/spelling.ts';
import type { Practice } from '../practice.ts';
import { findPractice, PRACTICES } from '../practices.ts';
import { applyChanges, type Change } from './change.ts';
import { CHANGE_KEYS, type ChangeKey } from './keys.ts';

/** What `practice` of a layout says when its rules are the owner's own. */
export const CUSTOM = 'custom';

export interface Resolved {
  /** Null when there is an error among the findings. */
  readonly practice: Practice | null;
  readonly findings: Finding[];
}

/** The practice that a layout names. Never throws. */
export function practiceOf(layout: Pick<Layout, 'practice' | 'custom'>): Resolved {
  if (layout.practice === CUSTOM)
    return layout.custom === undefined ? failed(withoutCustom()) : customPractice(layout.custom);
  const practice = findPractice(layout.practice);
  if (practice === null) return failed(unknownPractice(layout.practice, 'practice', [CUSTOM]));
  return { practice, findings: layout.custom === undefined ? [] : [notUsed(practice)] };
}

function failed(finding: Finding): Resolved {
  return { practice: null, findings: [finding] };
}

function customPractice({ from, name, changes }: CustomPractice): Resolved {
  const base = findPractice(from);
  if (base === null) return failed(unknownPractice(from, 'custom.from', []));
  const findings: Finding[] = [];
  const good: (readonly [ChangeKey, Change])[] = [];
  for (const [key, change] of Object.entries(changes)) {
    const path = `custom.changes.${key}`;
    const at = CHANGE_KEYS.get(key);
    const wrong = at === undefined ? unknownKey(key, path) : check(at, change, path);
    if (wrong !== null) findings.push(wrong);
    else if (at !== undefined) good.push([at, change]);
  }
  if (hasErrors(findings)) return { practice: null, findings };
  return { practice: { ...applyChanges(base, good), id: CUSTOM, name }, findings };
}

/** Null when the value can stand at this place. */
function check(at: ChangeKey, change: Change, path: string): Finding | null {
  if (change === null) return at.optional ? null : wrongValue(at, change, path);
  switch (at.kind) {
    case 'yes-no':
      return typeof change === 'boolean' ? null : wrongValue(at, change, path);
    case 'choice':
      return typeof change === 'string' && at.choices.includes(change) ? null : wrongValue(at, change, path);
    default:
      if (typeof change !== 'number') return wrongValue(at, change, path);
      return change > 0 || (change === 0 && at.zero) ? null : zero(path);
  }
}

const EXPECTED: Readonly<Record<ChangeKey['kind'], string>> = {
  time: 'a time in seconds',
  metres: 'a length in metres',
  'metres-a-second': 'a speed in metres a second',
  'yes-no': 'true or false',
  choice: 'one of a few words',
};

function wrongValue(at: ChangeKey, change: Change, path: string): Finding {
  const words = at.choices.map((word) => JSON.stringify(word)).join(' or ');
  const expected = at.kind === 'choice' ? words : EXPECTED[at.kind];
  return error('wrong-value', path, {
    what: `This is not a value for "${at.key}". Found: ${JSON.stringify(change)}.`,
    why: `Expected is ${expected}${at.optional ? ', or null where there is none' : ''}.`,
    cure: 'Write one of these, or take the change out.',
  });
}

function zero(path: string): Finding {
  return error('zero-time', path, {
    what: 'The value is zero.',
    why: 'Nothing of this length can be shown.',
    cure: 'Write a value above zero, or take the change out.',
  });
}

function unknownKey(key: string, path: string): Finding {
  const known = [...CHANGE_KEYS.keys()];
  const [kind = '', field = ''] = key.split('.');
  const beside = known.filter((it) => it.startsWith(`${kind}.`));
  // Within a kind only the second word counts: the first alone would make everything look near.
  const word = nearest(
    field,
    beside.map((it) => it.slice(kind.length + 1)),
  );
  const meant = word !== null ? `${kind}.${word}` : beside.length > 0 ? null : nearest(key, known);
  const hint = beside.length > 0 ? `Under "${kind}" there are: ${beside.join(', ')}.` : 'Check the spelling.';
  return warning('unknown-key', path, {
    what: `No value of a practice is called "${key.slice(0, 60)}".`,
    why: 'The change is not used.',
    cure: meant === null ? hint : `Write "${meant}" if you meant that, or take it out.`,
  });
}

function unknownPractice(id: string, path: string, more: readonly string[]): Finding {
  return error('unknown-practice', path, {
    what: `There is no practice "${id}".`,
    why: 'It gives the order of the aspects and the usual times.',
    cure: `Use one of these: ${[...PRACTICES.map((practice) => practice.id), ...more].join(', ')}.`,
  });
}

function withoutCustom(): Finding {
  return error('custom-missing', 'custom', {
    what: 'The practice is your own, and nothing says what it is.',
    why: 'It begins from another practice and changes some of its values.',
    cure: 'Write "custom": { "from": "uk-today", "name": "Mine", "changes": {} }, or name one of the practices.',
  });
}

function notUsed(practice: Practice): Finding {
  return warning('not-used', 'custom', {
    what: `Your own practice is not used: the layout follows "${practice.name}".`,
    why: 'Only one set of rules can hold.',
    cure: `Write "practice": "${CUSTOM}" to use it, or take it out.`,
  });
}
