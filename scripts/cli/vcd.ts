/**
 * Lamp edges as a value change dump (IEEE 1364, chapter 18). One cycle of 16 MHz
 * is 62.5 ns, so the unit is 100 ps and every time is exact: 625 units a cycle.
 */
import type { CompiledBoard } from '../../shared/signals/compile.ts';

const UNITS_PER_CYCLE = 625;

/** Identifier codes are made of the printable characters ! to ~. */
export function identifier(index: number): string {
  let code = '';
  let rest = index;
  do {
    code = String.fromCharCode(33 + (rest % 94)) + code;
    rest = Math.floor(rest / 94) - 1;
  } while (rest >= 0);
  return code;
}

/** Reference names hold no white space. */
function name(text: string): string {
  return text.trim().replace(/[^A-Za-z0-9_.-]+/g, '_') || 'lamp';
}

export class VcdWriter {
  private readonly write: (text: string) => void;
  private time = -1;

  /** Writes the head at once; all lamps are dark at time 0, when the table starts. */
  constructor(board: CompiledBoard, write: (text: string) => void) {
    this.write = write;
    const lamps = board.table.lamps;
    const named = new Set<number>();
    const scopes = board.sites.flatMap((site) => {
      for (const lamp of site.lamps) named.add(lamp.index);
      return scope(
        name(site.id),
        site.lamps.map((lamp) => [lamp.index, name(`${lamp.label}_${lamp.colour}`)] as const),
      );
    });
    const others = lamps.flatMap((lamp, index) => (named.has(index) ? [] : [[index, name(lamp.name)] as const]));
    write(
      [
        '$comment Lamps in board time; time 0 is the start of the table. $end',
        '$timescale 100 ps $end',
        `$scope module ${name(board.id)} $end`,
        ...scopes,
        ...(others.length > 0 ? scope('indicators', others) : []),
        '$upscope $end',
        '$enddefinitions $end',
        '#0',
        '$dumpvars',
        ...lamps.map((_, index) => `0${identifier(index)}`),
        '$end',
        '',
      ].join('\n'),
    );
  }

  /** Edges come in order of time. */
  edge(lamp: number, lit: boolean, cycles: number): void {
    if (cycles !== this.time) {
      this.time = cycles;
      this.write(`#${cycles * UNITS_PER_CYCLE}\n`);
    }
    this.write(`${lit ? 1 : 0}${identifier(lamp)}\n`);
  }

  /** The moment up to which the lamps were watched. */
  end(cycles: number): void {
    this.write(`#${cycles * UNITS_PER_CYCLE}\n`);
  }
}

function scope(title: string, lamps: readonly (readonly [number, string])[]): string[] {
  return [
    `$scope module ${title} $end`,
    ...lamps.map(([index, wire]) => `$var wire 1 ${identifier(index)} ${wire} $end`),
    '$upscope $end',
  ];
}
