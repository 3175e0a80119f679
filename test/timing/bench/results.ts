/** What a bench has found: one list for the screen, for build/bench.json and for the table of the README. */
export interface Result {
  /** Part of the bench that measured it. */
  readonly part: string;
  /** Stable name, by which the README's table finds it. */
  readonly key: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  /** True: by the clock of this computer, and so different elsewhere. False: emulated cycles or sizes. */
  readonly byClock: boolean;
}

export class Results {
  list: readonly Result[];
  private readonly print: (line: string) => void;
  private part = '';

  /** With what an earlier bench has found, or empty. */
  constructor(found: readonly Result[] = [], print: (line: string) => void = console.log) {
    this.list = found;
    this.print = print;
  }

  /** What follows belongs to this part; what it found earlier is forgotten. */
  begin(part: string): void {
    this.part = part;
    this.list = this.list.filter((result) => result.part !== part);
  }

  /** Of the board: emulated cycles, bytes. */
  note(key: string, what: string, value: number, unit: string): void {
    this.add({ part: this.part, key, what, value, unit, byClock: false });
  }

  /** By this computer's own clock. */
  clock(key: string, what: string, value: number, unit: string): void {
    this.add({ part: this.part, key, what, value, unit, byClock: true });
  }

  /** Throws where nothing of that name was measured: a table with holes says nothing. */
  value(key: string): number {
    const found = this.list.find((result) => result.key === key);
    if (!found) throw new Error(`the bench has not measured ${key}`);
    return found.value;
  }

  private add(result: Result): void {
    const value = Number(result.value.toPrecision(4));
    this.list = [...this.list, { ...result, value }];
    this.print(`${result.what.padEnd(74)} ${String(value).padStart(10)} ${result.unit}`);
  }
}
