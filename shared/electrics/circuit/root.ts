/** Where a function that never falls crosses zero. */
export function rootOf(rising: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let atLow = rising(low);
  let atHigh = rising(high);
  if (atLow >= 0) return low;
  if (atHigh <= 0) return high;
  // Regula falsi, halving the weight of an end that stays (Illinois): safe, and quick on curves like a diode's.
  let side = 0;
  for (let round = 0; round < 100 && high - low > 1e-7; round++) {
    const middle = round % 8 === 7 ? (low + high) / 2 : (low * atHigh - high * atLow) / (atHigh - atLow);
    const value = rising(middle);
    if (Math.abs(value) < 1e-12) return middle;
    if (value < 0) {
      low = middle;
      atLow = value;
      if (side === -1) atHigh /= 2;
      side = -1;
    } else {
      high = middle;
      atHigh = value;
      if (side === 1) atLow /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}
