/** A document of a newer version: as much of it as this program understands, and what had to be left out. */
import type { Finding } from '../findings/finding.ts';
import { pathText, warning } from '../findings/make.ts';
import { type Layout, LayoutSchema } from './schema.ts';
import { withoutUnknown, withUnknown } from './unknown.ts';

type Fields = Record<PropertyKey, unknown>;
type Path = readonly PropertyKey[];

/** With more parts than this that it does not know, a file is another kind of file. */
const MOST_LEFT_OUT = 100;

export interface Understood {
  readonly layout: Layout;
  /** What was left out, each as a warning. */
  readonly findings: readonly Finding[];
}

/**
 * `document` says the present version. A field with a value that is not known goes first; where it cannot be
 * missing, the item of the list around it goes. Null: too little is left for a layout.
 */
export function understand(document: Fields): Understood | null {
  const working = structuredClone(document);
  const out = new LeftOut();
  for (let round = 0; round <= 2 * MOST_LEFT_OUT; round++) {
    const first = LayoutSchema.safeParse(working);
    const parsed = first.success ? first : LayoutSchema.safeParse(withoutUnknown(working, first.error.issues));
    if (parsed.success) return { layout: withUnknown(parsed.data, working), findings: out.findings() };
    const [issue] = parsed.error.issues;
    if (issue === undefined || !out.take(working, issue.path)) return null;
  }
  return null;
}

class LeftOut {
  /** By their places in the file as it came. */
  private readonly parts: { readonly path: Path; readonly value: unknown }[] = [];
  /** Of each list that has lost something: which items of the file are left. */
  private readonly lists = new Map<unknown, number[]>();

  /** Takes what is in the way out of the document; false where nothing can go. */
  take(document: Fields, path: Path): boolean {
    const stepping = [document, ...path.map((_, at) => valueAt(document, path.slice(0, at + 1)))];
    let last = path.length - 1;
    // What is missing cannot go: the item around it does.
    if (stepping[last + 1] === undefined) {
      last -= 1;
      while (last >= 0 && !Array.isArray(stepping[last])) last -= 1;
    }
    const within = stepping[last];
    const step = path[last];
    if (last < 0 || step === undefined || typeof within !== 'object' || within === null) return false;
    const place = this.placeOf(stepping, path.slice(0, last + 1));
    this.parts.push({ path: place, value: stepping[last + 1] });
    if (Array.isArray(within)) {
      this.indexes(within).splice(Number(step), 1);
      within.splice(Number(step), 1);
    } else {
      delete (within as Fields)[step];
    }
    return this.parts.length <= 2 * MOST_LEFT_OUT;
  }

  /** Where an item went, its fields that had gone before need no word. */
  findings(): Finding[] {
    const texts = this.parts.map(({ path }) => pathText(path));
    const isWithin = (text: string): boolean =>
      texts.some((other) => text !== other && (text.startsWith(`${other}.`) || text.startsWith(`${other}[`)));
    return this.parts.flatMap(({ value }, at) => {
      const path = texts[at] ?? '';
      return isWithin(path) ? [] : [leftOut(path, value)];
    });
  }

  private placeOf(stepping: readonly unknown[], path: Path): Path {
    return path.map((step, at) =>
      Array.isArray(stepping[at]) ? (this.indexes(stepping[at])[Number(step)] ?? step) : step,
    );
  }

  private indexes(list: readonly unknown[]): number[] {
    const known = this.lists.get(list) ?? list.map((_, index) => index);
    this.lists.set(list, known);
    return known;
  }
}

function leftOut(path: string, value: unknown): Finding {
  const { name, id } = (value ?? {}) as { name?: unknown; id?: unknown };
  const called =
    typeof name === 'string' ? ` (${name.slice(0, 60)})` : typeof id === 'string' ? ` (${id.slice(0, 60)})` : '';
  return warning('left-out', path, {
    what: `${path}${called} is left out.`,
    why: 'This Amberwick does not know what a newer one wrote there.',
    cure: 'Update Amberwick to use it. It stays in the file as long as that is not saved over.',
  });
}

function valueAt(document: unknown, path: Path): unknown {
  let value = document;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Fields)[step];
  }
  return value;
}
