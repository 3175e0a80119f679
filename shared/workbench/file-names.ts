/** Names of layout files that every system takes, so that a folder can go to another computer. */

/** Endings of layout files; the first is for new ones. */
export const LAYOUT_ENDINGS = ['.amberwick', '.json'] as const;

/** Leaves room for what is put behind a name while its file is written. */
const LONGEST = 120;

/** Not in names on Windows; a slash would name a folder anywhere. */
const FORBIDDEN = ['<', '>', ':', '"', '/', '\\', '|', '?', '*'];

/** Devices of Windows, with any ending (Naming Files, Paths, and Namespaces, in the documentation of Windows). */
const DEVICE = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i;

export type NameCheck =
  | { readonly ok: true; readonly name: string }
  /** One sentence that says what is wrong. */
  | { readonly ok: false; readonly why: string };

/** A name that a person typed, with its ending; without one it gets that of new files. No folder is ever part of it. */
export function fileName(typed: string): NameCheck {
  const name = typed.normalize('NFC').trim();
  const refuse = (why: string): NameCheck => ({ ok: false, why });
  if (name === '') return refuse('The name is empty.');
  const found = [...name].find((sign) => FORBIDDEN.includes(sign) || sign < ' ' || sign === '\u007f');
  if (found !== undefined) {
    return refuse(
      found < ' ' || found === '\u007f'
        ? 'The name has a sign in it that cannot be seen.'
        : `The name has ${found} in it.`,
    );
  }
  if (name.startsWith('.')) return refuse('The name begins with a full stop, so the file would be hidden.');
  if (name.endsWith('.')) return refuse('The name ends with a full stop.');
  if (DEVICE.test(name)) return refuse('Windows keeps this name for a device.');
  const whole = hasEnding(name) ? name : `${name}${LAYOUT_ENDINGS[0]}`;
  if (whole.length > LONGEST) return refuse(`The name has more than ${LONGEST} signs.`);
  return { ok: true, name: whole };
}

export function hasEnding(name: string): boolean {
  const lower = name.toLowerCase();
  return LAYOUT_ENDINGS.some((ending) => lower.endsWith(ending) && lower.length > ending.length);
}

/** A file name for a layout, made of its own name. */
export function suggestedName(title: string): string {
  const plain = [...title.normalize('NFC')]
    .map((sign) => (FORBIDDEN.includes(sign) || sign < ' ' ? ' ' : sign))
    .join('');
  const checked = fileName(
    plain
      .replace(/\s+/g, ' ')
      .replace(/^[\s.]+|[\s.]+$/g, '')
      .slice(0, 80),
  );
  return checked.ok ? checked.name : `Layout${LAYOUT_ENDINGS[0]}`;
}
