import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';

/** One finding for each id that stands a second time in a list. */
export function duplicateIds(
  items: readonly { readonly id?: string; readonly label?: string | undefined }[],
  path: string,
  kind: string,
  key: 'id' | 'label' = 'id',
): Finding[] {
  const seen = new Set<string>();
  return items.flatMap((item, index) => {
    const id = item[key];
    if (id === undefined) return [];
    if (!seen.has(id)) {
      seen.add(id);
      return [];
    }
    return [
      error('duplicate-id', `${path}[${index}].${key}`, {
        what: `Two of them have the id "${id}" (each is a ${kind}).`,
        why: 'Where the id is used nobody can tell which one is meant.',
        cure: 'Give one of them another id.',
      }),
    ];
  });
}

/** "18 s", "0.75 s". */
export function seconds(ms: number): string {
  return `${ms / 1000} s`;
}
