/** How electrics says things. */

/** `D0 D1 D2 A4` as `D0 to D2, A4`. Names are a letter and a number. */
export function pinRuns(names: readonly string[]): string {
  const runs: { letter: string; from: number; to: number }[] = [];
  for (const name of names) {
    const [letter, number] = [name.slice(0, 1), Number(name.slice(1))];
    const last = runs.at(-1);
    if (last !== undefined && last.letter === letter && last.to + 1 === number) last.to = number;
    else runs.push({ letter, from: number, to: number });
  }
  return runs
    .map(({ letter, from, to }) =>
      from === to ? `${letter}${from}` : `${letter}${from}${to === from + 1 ? ',' : ' to'} ${letter}${to}`,
    )
    .join(', ');
}

/** "12 mA", "8.6 mA". */
export function milliampsText(milliamps: number): string {
  return `${milliamps >= 99.5 ? Math.round(milliamps) : Number(milliamps.toFixed(1))} mA`;
}

/** "5 V", "2.4 V". */
export function voltsText(volts: number): string {
  return `${Number(volts.toFixed(2))} V`;
}
