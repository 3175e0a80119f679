/**
 * What may stand in a report: numbers, and words that this program itself has.
 * Everything is let in by what it is, nothing is searched for and taken out,
 * so that a private word needs no one to have thought of it.
 */
import { CAUSES, FLAGS, MASTERS } from '../../../shared/link/vocabulary.ts';
import { CAPACITY } from '../../../shared/table/format.ts';
import { PROBLEM_CODES } from '../../../shared/workbench/problems.ts';
import { SILICON } from '../loader/silicon.ts';

export const LEFT_OUT = '[left out]';

const WORDS: ReadonlySet<string> = new Set([
  ...PROBLEM_CODES,
  ...CAUSES,
  ...MASTERS,
  ...FLAGS.map(({ key }) => key),
  ...Object.keys(CAPACITY),
  ...SILICON.map(({ name }) => name),
  // States of the link, how tables and firmware compare, tasks and their stages, loaders, shells: contract and types.
  ...['off', 'opening', 'greeting', 'ready', 'lost'],
  ...['unknown', 'none', 'same', 'times', 'other', 'older', 'newer'],
  ...['send', 'keep', 'putBack', 'readBack', 'firmware', 'replace'],
  ...['read', 'reset', 'press', 'write', 'verify', 'greet', 'restore'],
  ...['v1-115200', 'v1-57600', 'v2-115200'],
  ...['electron', 'browser', 'auto', 'on', 'off', 'untouched', 'empty'],
]);

/** The word when it is one of ours. */
export function known(word: string): string {
  return WORDS.has(word) ? word : LEFT_OUT;
}

/** A version: up to four numbers with dots. */
export function versionText(text: string | null): string {
  if (text === null) return 'none';
  return /^\d{1,4}(\.\d{1,5}){1,3}$/.test(text) ? text : LEFT_OUT;
}

/** A moment as ISO 8601 in UTC. */
export function momentText(text: string): string {
  return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(text) ? text : LEFT_OUT;
}

const PLAIN_PORT = /^(\/dev\/(tty(USB|ACM|AMA|S)\d{1,3}|pts\/\d{1,5})|COM\d{1,3})$/;
/** Names that carry a serial number or a place: the kind stays. */
const MARKED_PORT =
  /^(\/dev\/(?:tty|cu)\.(?:usbserial|usbmodem|wchusbserial|SLAB_USBtoUART|Bluetooth)|\/dev\/serial\/by-(?:id|path)\/)/;

/** The path of a port; what may be a serial number or a name is left out. */
export function portText(path: string): string {
  if (PLAIN_PORT.test(path)) return path;
  if (/^virtual(:|$)/.test(path)) return 'virtual board';
  const kind = MARKED_PORT.exec(path)?.[1];
  return kind === undefined ? 'a port of another kind' : `${kind}${LEFT_OUT}`;
}

/** What kind of USB chip a port has, with its vendor and product id where the label tells them. */
export function portKind(label: string): string {
  const ids = /\b[0-9a-f]{4}:[0-9a-f]{4}\b/i.exec(label)?.[0].toLowerCase();
  const chip = /^USB serial \((CH340|CH9102|CP210x|FT232R|FT2232|FT232H|FT-X|PL2303)\)$/.exec(label)?.[1];
  const own = label === 'board with its own USB' ? label : null;
  return (
    [chip ? `USB serial (${chip})` : own, ids ? `USB ${ids}` : null].filter((part) => part).join(', ') || 'serial port'
  );
}

type Data = Readonly<Record<string, string | number | boolean | null>>;

/** Values of a log entry: numbers and switches, words of ours, versions, check sums. */
export function dataText(data: Data): string {
  return Object.entries(data)
    .filter(([key]) => /^[a-z][a-zA-Z]{0,19}$/.test(key))
    .map(([key, value]) => `${key} ${typeof value === 'string' ? valueText(key, value) : value}`)
    .join(', ');
}

function valueText(key: string, value: string): string {
  if (key === 'port') return portText(value);
  if (key === 'firmware') return versionText(value);
  if ((key === 'crc' || key === 'shape') && /^[0-9A-F]{4}$/.test(value)) return value;
  return known(value);
}
