/**
 * Writes firmware/core/vocabulary.h and the tables between the markers of
 * firmware/PROTOCOL.md from shared/table/format.ts and
 * shared/link/vocabulary.ts. With `--check` it writes nothing and exits 1 when
 * a file differs from what it would write.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as link from '../shared/link/vocabulary.ts';
import * as format from '../shared/table/format.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const headerPath = `${root}firmware/core/vocabulary.h`;
const documentPath = `${root}firmware/PROTOCOL.md`;

/** `badOutput` becomes `BAD_OUTPUT`. */
const upper = (name: string) => name.replace(/([A-Z])/g, '_$1').toUpperCase();

const defines = (prefix: string, values: Readonly<Record<string, number>>) =>
  Object.entries(values).map(([key, value]) => `#define ${prefix}_${upper(key)} ${value}`);

/** Words one after the other, each with its NUL; the last NUL is the compiler's. */
const words = (name: string, list: readonly string[]) => [
  `#define ${name} \\`,
  list.map((word) => `    "${word}\\0"`).join(' \\\n'),
];

const byKey = <T extends { readonly key: string }>(list: readonly T[], value: (entry: T) => number) =>
  Object.fromEntries(list.map((entry) => [entry.key, value(entry)]));

/** The C header: numbers and words only, no code. */
export function header(): string {
  const chip = (name: format.Chip) => [
    `#define CHIP_NAME "${name}"`,
    ...defines('CAPACITY', { ...format.CAPACITY[name] }),
  ];
  return `${[
    '/* Written by scripts/generate-vocabulary.ts; do not edit. */',
    '#ifndef VOCABULARY_H',
    '#define VOCABULARY_H',
    '',
    '#if defined(CHIP_ATMEGA328P)',
    ...chip('atmega328p'),
    '#elif defined(CHIP_ATMEGA2560)',
    ...chip('atmega2560'),
    '#else',
    '#error "name the chip"',
    '#endif',
    '',
    `#define IMAGE_FORMAT ${format.IMAGE_FORMAT}`,
    `#define NONE ${format.NONE}`,
    `#define NO_DIAL ${format.NO_DIAL}`,
    `#define NO_GROUP ${format.NO_GROUP}`,
    `#define CHAIN_BASE ${format.CHAIN_BASE}`,
    `#define DEFAULT_FLASH_MS ${format.DEFAULT_FLASH_MS}`,
    `#define SYNC_PULSE_MS ${format.SYNC_PULSE_MS}`,
    `#define MAX_STEPS ${format.MAX_STEPS}`,
    ...defines('FAULT_RETURN', format.FAULT_RETURN),
    ...defines('LIMIT', format.PROGRAM_LIMITS),
    '',
    ...defines('STATE', format.LAMP_STATE),
    '',
    ...defines('OP', format.OP),
    '',
    ...defines('COND', format.COND),
    '',
    ...defines('AT_NIGHT', format.AT_NIGHT),
    '',
    `#define PROTOCOL_VERSION ${link.PROTOCOL_VERSION}`,
    '/* Tests build the core for a version to come. */',
    '#ifndef STORE_VERSION',
    `#define STORE_VERSION ${format.STORE_VERSION}`,
    '#endif',
    `#define BAUD ${link.BAUD}`,
    ...defines('LINK', link.LINK),
    '',
    ...defines(
      'VERB',
      Object.fromEntries([...link.VERBS.map((verb, i) => [verb.word, i] as const), ['count', link.VERBS.length]]),
    ),
    ...words(
      'VERB_WORDS',
      link.VERBS.map((verb) => verb.word),
    ),
    '/* For each verb: bit 0 slow, bit 1 once. */',
    `#define VERB_KINDS ${link.VERBS.map((verb) => (verb.slow ? 1 : 0) + (verb.once ? 2 : 0)).join(', ')}`,
    '',
    ...defines(
      'CODE',
      byKey(link.CODES, (entry) => entry.code),
    ),
    '/* Each reason stands behind its code. */',
    '#define CODE_REASONS \\',
    link.CODES.map((entry) => `    "\\${entry.code.toString(8)}" "${entry.reason}\\0"`).join(' \\\n'),
    '',
    ...defines(
      'FAULT',
      byKey(link.FAULTS, (entry) => entry.code),
    ),
    ...defines(
      'FLAG',
      byKey(link.FLAGS, (entry) => 1 << entry.bit),
    ),
    ...defines(
      'DEED',
      byKey(link.DEEDS, (entry) => entry.bit),
    ),
    ...defines(
      'SITE_FLAG',
      byKey(link.SITE_FLAGS, (entry) => 1 << entry.bit),
    ),
    '',
    ...defines('MASTER', Object.fromEntries(link.MASTERS.map((word, i) => [word, i]))),
    ...words('MASTER_WORDS', link.MASTERS),
    ...defines('CAUSE', Object.fromEntries(link.CAUSES.map((word, i) => [word, i]))),
    ...words('CAUSE_WORDS', link.CAUSES),
    ...defines('EVENT', Object.fromEntries(link.EVENTS.map((event, i) => [event.word, i]))),
    ...words(
      'EVENT_WORDS',
      link.EVENTS.map((event) => event.word),
    ),
    '',
    '#endif',
  ].join('\n')}\n`;
}

function table(heads: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const line = (cells: readonly (string | number)[]) => `| ${cells.join(' | ')} |`;
  return [line(heads), line(heads.map(() => '---')), ...rows.map(line)].join('\n');
}

const code = (text: string) => (text === '' ? '' : `\`${text.replaceAll('|', '\\|')}\``);

const verbs = () =>
  table(
    ['word', 'arguments', 'answer after `ok`', 'what it does', ''],
    link.VERBS.map((verb) => [
      code(verb.word),
      code(verb.args),
      code(verb.answer),
      verb.does,
      [verb.slow ? 'slow' : 'quick', ...(verb.once ? ['_once_'] : [])].join(', '),
    ]),
  );

const events = () =>
  table(
    ['word', 'fields', 'when'],
    link.EVENTS.map((event) => [code(event.word), code(event.fields), event.when]),
  );

const codes = () =>
  table(
    ['code', 'reason', 'what can be done'],
    link.CODES.map((entry) => [entry.code, code(entry.reason), entry.cure]),
  );

const flags = () =>
  [
    table(
      ['FLAGS bit', 'means'],
      link.FLAGS.map((flag) => [flag.bit, `_${flag.key}_: ${flag.means}`]),
    ),
    table(
      ['SITEFLAGS bit', 'means'],
      link.SITE_FLAGS.map((flag) => [flag.bit, `_${flag.key}_: ${flag.means}`]),
    ),
    table(
      ['FAULT', 'means'],
      link.FAULTS.map((fault) => [fault.code, `_${fault.key}_: ${fault.reason}`]),
    ),
    table(
      ['DEED', 'means'],
      link.DEEDS.map((deed) => [deed.bit, `_${deed.key}_: ${deed.means}`]),
    ),
    `Masters: ${link.MASTERS.map(code).join(', ')}. Causes: ${link.CAUSES.map(code).join(', ')}.`,
    `Longest request ${link.LINK.requestLine} characters, longest line from the board ${link.LINK.answerLine}, newline included.`,
  ].join('\n\n');

const capacities = () =>
  table(
    ['chip', 'image bytes', 'lamps', 'sites', 'inputs', 'groups', 'programs', 'chain chips', 'highest pin'],
    Object.entries(format.CAPACITY).map(([chip, c]) => [
      chip,
      c.image,
      c.lamps,
      c.sites,
      c.inputs,
      c.groups,
      c.programs,
      c.chips,
      c.pins,
    ]),
  );

/** Sizes by the rules of chapter 2. */
const aspectBytes = (lamps: number) => Math.ceil(lamps / 4);
const programBytes = (lamps: number, dials: number, pairs: number, rows: number) =>
  8 + 4 * dials + 2 * aspectBytes(lamps) + 2 * pairs + rows;
const siteBytes = (dials: number, inputs: number) => 5 + inputs + 2 * dials;

/** The job that must fit: 8 two-stage junctions and 4 beacon pairs, 48 independent dials. */
const budget = () => {
  const parts: [string, string, number][] = [
    ['header', '', 12],
    ['chain', '56 lamps are more than the pins', 4],
    ['lamps', '8 × 6 + 4 × 2 = 56, 2 bytes each', 2 * (8 * 6 + 4 * 2)],
    [
      'junction program',
      '8 + 5 dials × 4 + 2 aspects × 2 + 1 conflict pair × 2 + 8 rows × 3',
      programBytes(6, 5, 1, 8 * (1 + aspectBytes(6))),
    ],
    ['beacon program', '8 + 2 dials × 4 + 2 aspects × 1 + 1 row × 4', programBytes(2, 2, 0, 3 + aspectBytes(2))],
    ['junction sites', '8 × (5 + 5 dials × 2)', 8 * siteBytes(5, 0)],
    ['beacon sites', '4 × (5 + 2 dials × 2)', 4 * siteBytes(2, 0)],
  ];
  const sum = parts.reduce((total, part) => total + part[2], 0);
  const slot = format.CAPACITY.atmega328p.image;
  return [
    '8 two-stage junctions of 6 lamps with 5 dials each and 4 beacon pairs with 2 dials each: 48 dials.',
    table(['part', 'worked', 'bytes'], [...parts, ['sum', '', sum], ['left', `of ${slot}`, slot - sum]]),
  ].join('\n\n');
};

/** PROTOCOL.md with its tables renewed; the text between the tables stays. */
export function protocol(document: string): string {
  const sections = { verbs, events, codes, flags, capacities, budget };
  let text = document;
  for (const [name, make] of Object.entries(sections)) {
    const begin = `<!-- ${name}:begin -->`;
    const end = `<!-- ${name}:end -->`;
    const from = text.indexOf(begin);
    const to = text.indexOf(end);
    if (from < 0 || to < from) throw new Error(`PROTOCOL.md has no markers for ${name}`);
    text = `${text.slice(0, from + begin.length)}\n\n${make()}\n\n${text.slice(to)}`;
  }
  return text;
}

/** Names of the files that differ from their source; writes them unless `check`. */
export function renew(check: boolean): string[] {
  const read = (path: string) => {
    try {
      return readFileSync(path, 'utf8');
    } catch {
      return '';
    }
  };
  const files: [string, string][] = [
    [headerPath, header()],
    [documentPath, protocol(read(documentPath))],
  ];
  const drifted = files.filter(([path, text]) => read(path) !== text);
  if (!check) for (const [path, text] of drifted) writeFileSync(path, text);
  return drifted.map(([path]) => path.slice(root.length));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const check = process.argv.includes('--check');
  const drifted = renew(check);
  for (const path of drifted)
    console.log(check ? `${path} differs from its source: npm run vocabulary` : `wrote ${path}`);
  if (check && drifted.length > 0) process.exitCode = 1;
}
