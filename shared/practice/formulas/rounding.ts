/** Up to the next multiple of `step`; what floating point adds to an exact multiple is no reason to go up. */
export function roundUp(value: number, step: number): number {
  // Plus zero, because the ceiling of a hair below zero is minus zero.
  return Math.ceil(value / step - 1e-9) * step + 0;
}

/** True when every value is a finite number of at least zero. */
export function areLengths(...values: readonly number[]): boolean {
  return values.every((value) => Number.isFinite(value) && value >= 0);
}
