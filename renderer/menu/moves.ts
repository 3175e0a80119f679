/** How keys move in a menu. */

/** Where the key leads from item `at` of `labels`; null when it moves nothing. Letters go to the next item that begins so. */
export function moveIn(key: string, at: number, labels: readonly string[]): number | null {
  const count = labels.length;
  if (count === 0) return null;
  switch (key) {
    case 'ArrowDown':
      return (at + 1) % count;
    case 'ArrowUp':
      return (at - 1 + count) % count;
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
  }
  if (key.length !== 1 || key === ' ') return null;
  const letter = key.toLowerCase();
  for (let step = 1; step <= count; step++) {
    const next = (at + step + count) % count;
    if (labels[next]?.toLowerCase().startsWith(letter)) return next;
  }
  return null;
}
