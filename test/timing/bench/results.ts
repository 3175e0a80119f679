/** What a bench has found: one list for the screen, for build/bench.json and for the table of the README. */
export interface Result {
  /** Stable name, by which the README's table finds it. */
  readonly key: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  /** True: by the clock of this computer, and so different elsewhere. False: emulated cycles or sizes. */
  readonly byClock: boolean;
}

export class Results {
  readonly list: Result[];

  /** With what an earlier bench has found, or empty. */
  constructor(found: readonly Result[] = []) {
    this.list = [...found];
  }

  /** Of the board: emulated cycles, bytes. */
  note(key: string, what: string, value: number, unit: string): void {
    this.add({ key, what, value, unit, byClock: false });
  }

  /** By this computer's own clock. */
  clock(key: string, what: string, value: number, unit: string): void {
    this.add({ key, what, value, unit, byClock: true });
  }

  /** Throws where nothing of that name was measured: a table with holes says nothing. */
  value(key: string): number {
    const found = this.list.find((result) => result.key === key);
    if (!found) throw new Error(`the bench has not measured ${key}`);
    return found.value;
  }

  private add(result: Result): void {
    const value = Number(result.value.toPrecision(4));
    this.list.push({ ...result, value });
    console.log(`${result.what.padEnd(74)} ${String(value).padStart(10)} ${result.unit}`);
  }
}
