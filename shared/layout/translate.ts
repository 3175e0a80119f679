/** The schema's complaints in plain words, one finding a place. */
import type { z } from 'zod';
import type { Finding } from '../findings/finding.ts';
import { error, pathText, warning } from '../findings/make.ts';
import { shortened } from '../findings/shortened.ts';
import { layoutJsonSchema } from './json-schema.ts';
import { LONGEST_FINE_TIME, LONGEST_TIME } from './scalars.ts';
import { nearest } from './spelling.ts';

type Issue = z.core.$ZodIssue;
type Words = Pick<Finding, 'what' | 'why' | 'cure'>;

/** Letters of the file that a finding quotes. */
const QUOTED = 40;

const EMPTY = (what: string, cure: string): Words => ({ what, why: 'Without it there is nothing to run.', cure });

/** By the messages that the schema gives its checks. */
const WORDS: Readonly<Record<string, Words>> = {
  'zero-time': {
    what: 'The time is zero.',
    why: 'An interval without length cannot be shown.',
    cure: 'Write a time in seconds, such as 3 or 0.75.',
  },
  'negative-time': {
    what: 'The time is below zero.',
    why: 'A time cannot run backwards.',
    cure: 'Write a time in seconds, such as 3 or 0.75.',
  },
  'time-step': {
    what: 'The board cannot hold this time.',
    why: `It counts hundredths of a second up to ${LONGEST_FINE_TIME} s and whole seconds beyond.`,
    cure: 'Round the time.',
  },
  'time-too-long': {
    what: 'The time is too long.',
    why: `The board counts up to ${LONGEST_TIME} s (about nine hours).`,
    cure: 'Write a shorter time.',
  },
  'not-a-number': {
    what: 'This is not a number.',
    why: 'Times are numbers of seconds, without quotes and without a unit.',
    cure: 'Write a number, such as 18 or 0.75.',
  },
  'not-whole': {
    what: 'This is not a whole number from 0 on.',
    why: 'It counts things.',
    cure: 'Write a whole number.',
  },
  'not-a-byte': { what: 'The number is above 255.', why: 'The chance is given in 256ths.', cure: 'Write 0 to 255.' },
  'bad-percent': { what: 'The share is not from 0 to 100.', why: 'It is in percent.', cure: 'Write 0 to 100.' },
  'bad-id': {
    what: 'The id is not a short name.',
    why: 'Other places of the file, and the command line, speak of a thing by its id.',
    cure: 'Use letters, digits and hyphens, at most 40; the free text belongs in the name.',
  },
  'empty-name': { what: 'The name is empty.', why: 'Lists and messages show it.', cure: 'Give it a name.' },
  'long-name': { what: 'The text is too long.', why: 'It would not fit on the screen.', cure: 'Shorten it.' },
  'not-a-length': {
    what: 'This is not a number.',
    why: 'Lengths are numbers of millimetres and angles of degrees, without quotes and without a unit.',
    cure: 'Write a number, such as 90.',
  },
  'zero-length': { what: 'The length is not above zero.', why: 'It is in millimetres.', cure: 'Write its size.' },
  'odd-length': {
    what: 'The length is under 1 mm or above 100 m.',
    why: 'It is in millimetres of the model, and nothing on a layout is so small or so large.',
    cure: 'Write its size on the layout, such as 60 for a road.',
  },
  'far-away': {
    what: 'The place is more than 100 m away.',
    why: 'It is in millimetres on the baseboard, from its far left corner.',
    cure: 'Write where it is on the baseboard, such as 450.',
  },
  'bad-angle': {
    what: 'The angle is not from 0 to under 360.',
    why: 'It is in degrees clockwise from up.',
    cure: 'Write 0 for up, 90 for right, 180 for down, 270 for left.',
  },
  'bad-picture': {
    what: 'This names no picture.',
    why: 'A picture is named by the 64 hexadecimal digits of its SHA-256.',
    cure: 'Take the underlay out and choose the picture again on the plan.',
  },
  'not-a-figure': {
    what: 'This is not a number.',
    why: 'Volts, milliamps and ohms are numbers, without quotes and without a unit.',
    cure: 'Write a number, such as 5 or 2.1.',
  },
  'zero-volts': { what: 'The voltage is not above zero.', why: 'It is in volts.', cure: 'Write it, such as 5.' },
  'too-many-volts': {
    what: 'The voltage is above 24 V.',
    why: 'Model layouts run on extra-low voltage only, and the parts are made for it.',
    cure: 'Use a supply of 24 V or less; never mains.',
  },
  'zero-milliamps': {
    what: 'The current is not above zero.',
    why: 'It is in milliamps.',
    cure: 'Write it, such as 8.',
  },
  'too-many-milliamps': {
    what: 'The current is above 5,000 mA.',
    why: 'It is in milliamps; thin wires on a layout do not carry more.',
    cure: 'Write a smaller current, such as 8 for an LED.',
  },
  'zero-ohms': {
    what: 'The resistor is not above zero.',
    why: 'It is in ohms.',
    cure: 'Write its value, such as 330.',
  },
  'too-many-ohms': {
    what: 'The resistor is above 10 megohms.',
    why: 'It is in ohms; a lamp behind it would stay dark.',
    cure: 'Write a smaller value, such as 330.',
  },
  'no-count': { what: 'The lamp has no LEDs or more than 60.', why: 'It counts LEDs.', cure: 'Write 1 to 60.' },
  'bad-ratio': {
    what: 'The ratio is no number from 1 to 1,000.',
    why: 'It is how many millimetres of the street are one of the layout.',
    cure: 'Write the second number of 1:76.2, such as 76.2.',
  },
  'no-ratio': {
    what: 'The scale is custom, and no ratio is given.',
    why: 'Without it nobody knows how large anything is.',
    cure: 'Write the ratio, such as "ratio": 50, or choose one of the scales.',
  },
  'short-road': EMPTY('The road has fewer than two points.', 'Write where it begins and ends.'),
  'no-boards': EMPTY('The layout has no board.', 'Add a board: id, name and chip.'),
  'no-sites': EMPTY('The layout has no sites.', 'Add a junction or a crossing.'),
  'no-phases': EMPTY('The junction has no phases.', 'Add a phase for each stream of traffic.'),
  'no-stages': EMPTY('The junction has no stages.', 'Add a stage for each set of phases that go together.'),
  'no-beacons': EMPTY('The crossing has no beacons.', 'Add a beacon with its pin.'),
  'no-lamps': EMPTY('The site has no lamps.', 'Add a lamp with its pin.'),
  'no-rows': EMPTY('The site has no rows.', 'Add a row.'),
  'no-chips': EMPTY('The chain has no chips.', 'Write how many chips there are, or leave the chain out.'),
  'many-chips': {
    what: 'The chain has more than 255 chips.',
    why: 'A board can address 8 or 16 of them.',
    cure: 'Write how many chips there are.',
  },
};

/** Findings for the issues of a parse, the first one of each place. */
export function translateIssues(issues: readonly Issue[], document: unknown): Finding[] {
  const findings = issues.flatMap((issue) => translate(issue, document));
  const seen = new Set<string>();
  return findings.filter((finding) => {
    const key = `${finding.severity} ${finding.path}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function translate(issue: Issue, document: unknown): Finding[] {
  const path = pathText(issue.path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => unknownKey(pathText([...issue.path, key]), key));
  }
  const inner = issue.code === 'invalid_key' ? issue.issues[0]?.message : undefined;
  const code = inner ?? issue.message;
  const known = Object.hasOwn(WORDS, code) ? WORDS[code] : undefined;
  const value = lookUp(document, issue.path);
  if (known !== undefined) return [error(code, path, { ...known, what: `${known.what}${told(value)}` })];
  if (value === undefined) return [missing(path, issue)];
  return [wrongKind(path, issue, value)];
}

function unknownKey(path: string, key: string): Finding {
  const meant = nearest(key, fieldNames());
  return warning('unknown-key', path, {
    what: `Nothing is called "${shortened(key, QUOTED)}" here.`,
    why: 'It is not used. It stays in the file when that is saved.',
    cure:
      meant === null ? 'Check the spelling, or take it out.' : `Write "${meant}" if you meant that, or take it out.`,
  });
}

let names: readonly string[] | null = null;

/** Worked out once: a file of a newer program may have hundreds of names that are not known. */
function fieldNames(): readonly string[] {
  names ??= [...knownKeys(layoutJsonSchema())];
  return names;
}

/** All names of fields anywhere in the document. */
function knownKeys(schema: unknown, keys = new Set<string>()): Set<string> {
  if (typeof schema !== 'object' || schema === null) return keys;
  if ('properties' in schema) for (const key of Object.keys(schema.properties ?? {})) keys.add(key);
  for (const part of Object.values(schema)) knownKeys(part, keys);
  return keys;
}

function missing(path: string, issue: Issue): Finding {
  const name = String(issue.path.at(-1) ?? '');
  return error('missing', path, {
    what: `"${name}" is missing.`,
    why: `It must be given here: ${expected(issue)}.`,
    cure: `Write "${name}".`,
  });
}

function wrongKind(path: string, issue: Issue, value: unknown): Finding {
  return error('wrong-value', path, {
    what: `This is not one of the values that can stand here.${told(value)}`,
    why: `Expected is ${expected(issue)}.`,
    cure: 'Write one of these.',
  });
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list [ … ]',
  tuple: 'a pair [ … ]',
  object: 'an object { … }',
  record: 'an object { … }',
};

function expected(issue: Issue): string {
  if (issue.code === 'invalid_type') return KINDS[issue.expected] ?? issue.expected;
  if (issue.code === 'invalid_value') return issue.values.map((value) => JSON.stringify(value)).join(' or ');
  if (issue.code === 'invalid_union') {
    if (issue.errors.length > 0) return issue.errors.flatMap((errors) => errors.slice(0, 1).map(expected)).join(' or ');
    const options = (issue as { readonly options?: readonly unknown[] }).options ?? [];
    return options.map((value) => JSON.stringify(value)).join(' or ');
  }
  if (issue.code === 'too_big' || issue.code === 'too_small') {
    return issue.origin === 'array' || issue.origin === 'set' ? 'a pair of two' : 'another size';
  }
  return 'another value';
}

function told(value: unknown): string {
  if (value === undefined || (typeof value === 'object' && value !== null)) return '';
  return ` Found: ${shortened(JSON.stringify(value), QUOTED)}.`;
}

function lookUp(document: unknown, path: readonly PropertyKey[]): unknown {
  let value = document;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[step];
  }
  return value;
}
