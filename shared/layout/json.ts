/**
 * Reads JSON text with places. JSON.parse does not say where an error is in
 * the same way everywhere, and loses the first of two equal keys without a word.
 */

export interface JsonFault {
  /** Counted from 1. */
  readonly line: number;
  readonly column: number;
  /** What was found and what was expected. */
  readonly what: string;
  readonly code: 'json-syntax' | 'json-truncated' | 'json-duplicate-key' | 'json-too-deep';
}

export type JsonResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly fault: JsonFault };

/** Deeper than any layout; keeps the scanner's own stack small. */
const DEEPEST = 64;

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids exactly these in strings.
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const WORD = /true|false|null/y;
const SPACE = /[ \t\r\n]*/y;

/** Thrown and caught in this file only. */
class Stop extends Error {
  readonly at: number;
  readonly code: JsonFault['code'];
  constructor(at: number, code: JsonFault['code'], what: string) {
    super(what);
    this.at = at;
    this.code = code;
  }
}

class Scanner {
  private at = 0;
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  document(): void {
    this.value(0);
    this.space();
    if (this.at < this.text.length) throw this.stop(`${this.here()} after the end of the document`);
  }

  private value(depth: number): void {
    this.space();
    const first = this.text[this.at];
    if (depth > DEEPEST) throw new Stop(this.at, 'json-too-deep', `more than ${DEEPEST} brackets inside each other`);
    if (first === '{') this.object(depth);
    else if (first === '[') this.array(depth);
    else if (first === '"') this.string();
    else if (!this.take(NUMBER) && !this.take(WORD)) throw this.stop(`${this.here()} where a value was expected`);
  }

  private object(depth: number): void {
    const keys = new Set<string>();
    this.at++;
    if (this.next('}')) return;
    do {
      this.space();
      const start = this.at;
      if (this.text[start] !== '"') throw this.stop(`${this.here()} where a name in double quotes was expected`);
      const key: unknown = JSON.parse(this.string());
      if (keys.has(String(key))) throw new Stop(start, 'json-duplicate-key', `the name "${key}" a second time`);
      keys.add(String(key));
      if (!this.next(':')) throw this.stop(`${this.here()} where a colon was expected`);
      this.value(depth + 1);
    } while (this.next(','));
    if (!this.next('}')) throw this.stop(`${this.here()} where a comma or } was expected`);
  }

  private array(depth: number): void {
    this.at++;
    if (this.next(']')) return;
    do this.value(depth + 1);
    while (this.next(','));
    if (!this.next(']')) throw this.stop(`${this.here()} where a comma or ] was expected`);
  }

  private string(): string {
    const start = this.at;
    if (this.take(STRING)) return this.text.slice(start, this.at);
    const closed = this.text.indexOf('"', start + 1);
    if (closed < 0) throw new Stop(this.text.length, 'json-truncated', 'the end of the file inside a text in quotes');
    throw this.stop('a text in quotes with a line break or an unknown \\ sign in it');
  }

  private next(sign: string): boolean {
    this.space();
    if (this.text[this.at] !== sign) return false;
    this.at++;
    return true;
  }

  private space(): void {
    this.take(SPACE);
  }

  private take(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return false;
    this.at = pattern.lastIndex;
    return true;
  }

  private here(): string {
    if (this.at >= this.text.length) return 'the end of the file';
    if (this.text.startsWith('//', this.at) || this.text.startsWith('/*', this.at)) return 'a comment';
    return `"${this.text[this.at]}"`;
  }

  private stop(what: string): Stop {
    return new Stop(this.at, this.at >= this.text.length ? 'json-truncated' : 'json-syntax', what);
  }
}

/** Never throws. `text` may begin with a byte order mark. */
export function readJson(text: string): JsonResult {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  try {
    new Scanner(body).document();
    return { ok: true, value: JSON.parse(body) };
  } catch (caught) {
    if (caught instanceof Stop)
      return { ok: false, fault: { ...place(body, caught.at), what: caught.message, code: caught.code } };
    return { ok: false, fault: { line: 1, column: 1, what: 'text that is not JSON', code: 'json-syntax' } };
  }
}

function place(text: string, at: number): { line: number; column: number } {
  const before = text.slice(0, at).split(/\r\n|\r|\n/);
  return { line: before.length, column: (before.at(-1) ?? '').length + 1 };
}
