/** Preferences that hold a record as JSON, which anybody may have spoilt. */

export function readRecord(text: string): Record<string, unknown> {
  try {
    const read: unknown = JSON.parse(text);
    return typeof read === 'object' && read !== null && !Array.isArray(read) ? { ...read } : {};
  } catch {
    return {};
  }
}

/** With another value as the newest, or with null without the key; of older ones `most` are left. */
export function withRecord(text: string, key: string, value: unknown, most: number): string {
  const { [key]: _, ...others } = readRecord(text);
  const kept = Object.entries(others).slice(-most);
  return JSON.stringify(Object.fromEntries(value === null ? kept : [...kept, [key, value]]));
}
