import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';

/** One finding for each id that stands a second time in a list. */
export function duplicateIds(items: readonly { readonly id: string }[], path: string, kind: string): Finding[] {
  const seen = new Set<string>();
  return items.flatMap((item, index) => {
    if (!seen.has(item.id)) {
      seen.add(item.id);
      return [];
    }
    return [
      error('duplicate-id', `${path}[${index}].id`, {
        what: `Two of them have the id "${item.id}" (each is a ${kind}).`,
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
