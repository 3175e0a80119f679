/** The heads of a site are reached from the site by arrow keys: one stop of the Tab key for all of them. */

export function headId(site: string, head: number): string {
  return `head-${site}-${head}`;
}

/** The next head by a key, round and round; -1: back to the site; null: another key. */
export function rove(key: string, head: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return (head + 1) % count;
    case 'ArrowLeft':
    case 'ArrowUp':
      return (head - 1 + count) % count;
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    case 'Escape':
      return -1;
    default:
      return null;
  }
}
