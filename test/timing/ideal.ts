/**
 * The ideal schedule of a site, worked out from times on paper: nothing of the
 * compiler, the interpreter or the firmware is used here.
 */

/** One row of a hand-written schedule: how long, and which lamps are lit. */
export interface PaperRow {
  readonly ms: number;
  /** One character a lamp; a dot is dark. */
  readonly lit: string;
}

export interface PaperSite {
  /** Board lamp of the first character of `lit`. */
  readonly firstLamp: number;
  readonly rows: readonly PaperRow[];
}

/** A lamp's change at an exact board time, ms since the table started. */
export interface IdealEdge {
  readonly ms: number;
  readonly lamp: number;
  readonly lit: boolean;
}

/** Every edge from the start to `untilMs`, by time, then lamp. Lamps are dark before 0. */
export function idealEdges(sites: readonly PaperSite[], untilMs: number): IdealEdge[] {
  return sites.flatMap((site) => edgesOf(site, untilMs)).sort((a, b) => a.ms - b.ms || a.lamp - b.lamp);
}

function edgesOf({ firstLamp, rows }: PaperSite, untilMs: number): IdealEdge[] {
  const edges: IdealEdge[] = [];
  let before = '.'.repeat(rows[0]?.lit.length ?? 0);
  let ms = 0;
  for (let at = 0; ms < untilMs; at = (at + 1) % rows.length) {
    const row = rows[at];
    if (!row) break;
    for (let lamp = 0; lamp < row.lit.length; lamp++) {
      const lit = row.lit[lamp] !== '.';
      if (lit !== (before[lamp] !== '.')) edges.push({ ms, lamp: firstLamp + lamp, lit });
    }
    before = row.lit;
    ms += row.ms;
  }
  return edges;
}
