/** The gap and the maximum of an extend row (PROTOCOL.md, chapter 4). Times in ms. */
export class Extension {
  #gap = 0;
  #lapsed = false;
  /** How long the maximum has run; null while nothing opposes. */
  #maximum: number | null = null;

  /** The row begins after `delay` ms. */
  enter(delay: number): void {
    this.#gap = -delay;
    this.#lapsed = false;
    this.#maximum = null;
  }

  skip(ticks: number): void {
    this.#gap += ticks;
    if (this.#maximum !== null) this.#maximum += ticks;
  }

  /** One look at the row: a detector that is active restarts the gap. */
  look(isDetecting: boolean, isOpposed: boolean, gap: number): void {
    if (isDetecting) {
      this.#gap = 0;
      this.#lapsed = false;
    }
    if (this.#gap >= gap) this.#lapsed = true;
    if (!isOpposed) this.#maximum = null;
    else this.#maximum ??= 0;
  }

  /** As the last look found it. */
  get isOpposed(): boolean {
    return this.#maximum !== null;
  }

  get hasLapsed(): boolean {
    return this.#lapsed;
  }

  isOver(maximum: number): boolean {
    return this.#maximum !== null && (this.#lapsed || this.#maximum >= maximum);
  }

  /** Ticks until the gap lapses or the maximum passes, if nothing else happens. */
  ticksToEvent(gap: number, maximum: number): number {
    const lapse = this.#lapsed ? Number.POSITIVE_INFINITY : gap - this.#gap;
    const end = this.#maximum === null ? Number.POSITIVE_INFINITY : maximum - this.#maximum;
    return Math.min(lapse > 0 ? lapse : 1, end > 0 ? end : Number.POSITIVE_INFINITY);
  }
}
