/** The sum of what happened, as years.c makes it: two lanes over the words of all events. */
export class Sum {
  edges = 0;
  rows = 0;
  private a = 0;
  private b = 0;

  edge(ms: number, lamp: number, lit: boolean): void {
    this.edges += 1;
    this.note(0x74, ms, lamp, lit ? 1 : 0);
  }

  row(ms: number, site: number, row: number): void {
    this.rows += 1;
    this.note(0x72, ms, site, row);
  }

  fault(ms: number, site: number, fault: number): void {
    this.note(0x66, ms, site, fault);
  }

  /** The lanes and counts since the last time, in the words of years.c. */
  take(now: number): string {
    const text = `sum ${this.a >>> 0} ${this.b >>> 0} ${this.edges} ${this.rows} ${now}`;
    this.a = this.b = this.edges = this.rows = 0;
    return text;
  }

  private note(kind: number, ms: number, a: number, b: number): void {
    this.mix(ms);
    this.mix((kind << 16) | (a << 8) | b);
  }

  private mix(word: number): void {
    this.a = Math.imul(this.a ^ word, 16777619);
    this.b = Math.imul(this.b ^ word, 0x85ebca6b);
    this.b ^= this.b >>> 13;
  }
}
