/**
 * Greens from traffic by Webster's method. Flows are vehicles an hour, times
 * seconds. A stage is as busy as the busiest of its streams.
 */
import type { Finding } from '../../findings/finding.ts';
import { error, warning } from '../../findings/make.ts';
import { fact } from '../../practice/practice.ts';

/** Traffic that one queue sends over the stop line. */
export interface Stream {
  /** Vehicles an hour that arrive. */
  readonly flow: number;
  /** Vehicles an hour that would leave if it were always green. */
  readonly saturation: number;
}

export interface StageTraffic {
  readonly name: string;
  readonly streams: readonly Stream[];
}

export interface Webster {
  /** y of each stage: flow / saturation of its busiest stream. */
  readonly ratios: readonly number[];
  /** Y, the sum of them; below 1. */
  readonly total: number;
  /** L, seconds of each cycle in which nobody moves. */
  readonly lostTime: number;
  /** The cycle with the least delay, s. */
  readonly optimum: number;
}

/** Cycles that are used, s, and the shortest of all. */
export const PRACTICAL_CYCLE = fact([45, 120] as const, 'seen', 'course text DCC3113, p. 121');
export const LEAST_CYCLE = fact(25, 'seen', 'course text DCC3113, p. 121');
/** Between these multiples of the optimum the delay hardly changes. */
export const FLAT_DELAY = fact([0.75, 1.5] as const, 'seen', 'course text DCC3113, p. 121');
/** Vehicles an hour over one lane's stop line: one each 2 s. */
export const SATURATION = fact(
  1800,
  'derived',
  'headway of 2 s in the bandwidth example of NPTEL 105101008, lecture 38',
);

/** C = (1.5 L + 5) / (1 - Y); Infinity from Y = 1 on. */
export function optimumCycle(lostTime: number, total: number): number {
  return total < 1 ? (1.5 * lostTime + 5) / (1 - total) : Number.POSITIVE_INFINITY;
}

/** g = (C - L) y / Y for each stage; equal shares where nobody drives. */
export function effectiveGreens(ratios: readonly number[], cycle: number, lostTime: number): number[] {
  const total = ratios.reduce((sum, y) => sum + y, 0);
  return ratios.map((y) => (cycle - lostTime) * (total > 0 ? y / total : 1 / ratios.length));
}

export function practicalCycle(optimum: number): number {
  const [least, greatest] = PRACTICAL_CYCLE.value;
  return Math.min(Math.max(optimum, least), greatest);
}

/** Never throws. `path` is the place of the stages in the layout; `result` is null when there is an error. */
export function webster(
  stages: readonly StageTraffic[],
  lostTime: number,
  path: string,
): { result: Webster | null; findings: Finding[] } {
  const findings = stages.flatMap((stage, index) => badStreams(stage, `${path}[${index}]`));
  if (!(Number.isFinite(lostTime) && lostTime >= 0)) findings.push(badLostTime(path));
  if (findings.length > 0) return { result: null, findings };
  const ratios = stages.map(({ streams }) => Math.max(0, ...streams.map((it) => it.flow / it.saturation)));
  const total = ratios.reduce((sum, y) => sum + y, 0);
  if (total >= 1) return { result: null, findings: [tooMuchTraffic(total, path)] };
  // A stage without any stream is for people on foot.
  const idle = stages.flatMap((stage, index) =>
    (ratios[index] ?? 0) > 0 || stage.streams.length === 0 ? [] : [noTraffic(stage.name, `${path}[${index}]`)],
  );
  return { result: { ratios, total, lostTime, optimum: optimumCycle(lostTime, total) }, findings: idle };
}

function badStreams({ name, streams }: StageTraffic, path: string): Finding[] {
  return streams.flatMap(({ flow, saturation }) => {
    const found: Finding[] = [];
    if (!(Number.isFinite(flow) && flow >= 0)) {
      found.push(
        error('bad-flow', path, {
          what: `The flow of ${name} is not a number of vehicles an hour.`,
          why: 'The greens are shared out by the flows.',
          cure: 'Write 0 or more, such as 400.',
        }),
      );
    }
    if (!(Number.isFinite(saturation) && saturation > 0)) {
      found.push(
        error('bad-saturation', path, {
          what: `The saturation flow of ${name} is not above zero.`,
          why: 'It says how many vehicles an hour could leave if it were always green.',
          cure: `Write ${SATURATION.value} for each lane.`,
        }),
      );
    }
    return found;
  });
}

function badLostTime(path: string): Finding {
  return error('bad-lost-time', path, {
    what: 'The lost time is not a number of seconds.',
    why: 'It is the part of each cycle in which nobody moves.',
    cure: 'Write 0 or more, such as 8; or leave it out.',
  });
}

function tooMuchTraffic(total: number, path: string): Finding {
  return error('too-much-traffic', path, {
    what: `This is more traffic than the junction takes: the flows add up to ${total.toFixed(2)} of what could leave.`,
    why: 'From 1 on no cycle is long enough, and the queues grow for ever.',
    cure: 'Write smaller flows, or a greater saturation flow for roads with more lanes.',
  });
}

function noTraffic(name: string, path: string): Finding {
  return warning('no-traffic', path, {
    what: `${name} has no traffic.`,
    why: 'It gets its minimum green and nothing more.',
    cure: 'Write its flow, or take the stage out.',
  });
}
