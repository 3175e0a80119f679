/**
 * The rows of a junction: each stage with its way of ending, then the changes
 * to the stages that can follow. Where several can, the choice is made as late
 * as their changes are alike, so that a demand made in the amber still counts.
 */
import type { Interval, LampState } from '../../table/model.ts';
import type { PlannedInterval } from '../intervals.ts';
import type { JunctionPlan, PlannedStage } from '../plan.ts';
import { Graph, type NodeId } from './graph.ts';
import { type LaidRow, layOut } from './lay.ts';
import { type Follower, orderAfter } from './order.ts';
import type { Section } from './sections.ts';

export interface RowWords {
  readonly plan: JunctionPlan;
  readonly sections: readonly Section[];
  readonly states: (interval: PlannedInterval) => LampState[];
  readonly label: (interval: PlannedInterval) => string;
  /** Index of the dial of an interval. */
  readonly dial: (interval: PlannedInterval) => number;
  /** Indices of the dials of a stage that vehicles extend. */
  readonly extension: (stage: PlannedStage) => { readonly gap: number; readonly maximum: number };
  /** Number of an input of the program. */
  readonly input: (id: string) => number;
  /** Dial of the offset in a common cycle, for which the last stage waits; null without. */
  readonly sync: number | null;
}

/** The way to one follower, from where the choice stands. */
interface Way {
  readonly stage: number;
  readonly inputs: readonly number[];
  readonly steps: readonly PlannedInterval[];
}

export function junctionRows(given: RowWords): LaidRow[] {
  const words = { ...given, states: remembered(given.states), dial: remembered(given.dial) };
  const { plan, sections } = words;
  const called = new Set(usedDemands(plan));
  const graph = new Graph();
  const entries = plan.stages.map(() => graph.reserve());
  sections.forEach((section, at) => {
    const id = entries[at] ?? 0;
    const decide = chooser(words, graph, entries);
    const isSynced = words.sync !== null && at === plan.stages.length - 1;
    const next = decide(waysFrom(words, section, at, isSynced));
    const left = clearNode(words, graph, clearedAtEnd(plan, called, at, isSynced), next);
    const row = stageRow(words, section, at, isSynced);
    const green = { is: 'interval', row, label: words.label(section.green), next: left } as const;
    // People on foot are served when their green begins: WAIT goes out, and who presses later asks again.
    const asked = demands(plan, called, at, 'pedestrian');
    if (asked.length === 0) graph.fill(id, green);
    else graph.fill(id, { ...clearing(words, asked), next: graph.add(green) });
  });
  return layOut(graph, entries[0] ?? 0);
}

/** Each interval is looked at several times, by every way that leads over it. */
function remembered<T>(make: (interval: PlannedInterval) => T): (interval: PlannedInterval) => T {
  const known = new Map<PlannedInterval, T>();
  return (interval) => {
    const old = known.get(interval);
    if (old !== undefined) return old;
    const made = make(interval);
    known.set(interval, made);
    return made;
  };
}

function stageRow(words: RowWords, section: Section, at: number, isSynced: boolean): Interval {
  const { plan } = words;
  const min = words.dial(section.green);
  const states = words.states(section.green);
  if (isSynced && words.sync !== null) return { op: 'sync', min, offset: words.sync, states };
  const stage = plan.stages[at];
  const { waits, followers } = orderAfter(plan, at);
  const calls = numbers(words, waits ? followers.flatMap((it) => it.inputs ?? []) : []);
  if (stage?.extend !== undefined) {
    const { gap, maximum } = words.extension(stage);
    return {
      op: 'extend',
      min,
      gap,
      max: maximum,
      detectors: numbers(words, stage.extend.detectors),
      opposing: calls,
      states,
    };
  }
  if (waits) return { op: 'until', min, when: { kind: 'demand', inputs: calls }, states };
  return { op: 'after', dial: min, states };
}

function numbers(words: RowWords, ids: readonly string[]): number[] {
  return [...new Set(ids.map(words.input))].sort((a, b) => a - b);
}

/** The followers in the order in which they are asked; the last one comes in any case. */
function waysFrom(words: RowWords, section: Section, at: number, isSynced: boolean): Way[] {
  const { followers, waits } = orderAfter(words.plan, at);
  const way = (it: Follower): Way => ({
    stage: it.stage,
    inputs: numbers(words, it.inputs ?? []),
    steps: section.changes.get(it.stage) ?? [],
  });
  const ways = followers.map(way);
  // On a common cycle a stage that nobody wants to leave is held for another round.
  if (waits && isSynced) ways.push({ stage: at, inputs: [], steps: [] });
  // A single stage follows itself.
  return ways.length === 0 ? [{ stage: at, inputs: [], steps: [] }] : ways;
}

function chooser(words: RowWords, graph: Graph, entries: readonly NodeId[]): (ways: readonly Way[]) => NodeId {
  const first = ({ stage, steps: [step] }: Way): string =>
    step === undefined ? `stage ${stage}` : `${words.dial(step)} ${words.states(step).join()}`;
  const decide = (ways: readonly Way[]): NodeId => {
    const last = ways.at(-1);
    if (last === undefined) return entries[0] ?? 0;
    if (ways.every((way) => first(way) === first(last))) return along(ways, last);
    const group = (way: Way): NodeId => decide(ways.filter((it) => first(it) === first(way)));
    return ways.slice(0, -1).reduceRight((no, way) => {
      const label = `Does anybody ask for ${words.plan.stages[way.stage]?.name}?`;
      return graph.add({ is: 'ask', inputs: way.inputs, label, yes: group(way), no });
    }, group(last));
  };
  const along = (ways: readonly Way[], last: Way): NodeId => {
    const [step] = last.steps;
    if (step === undefined) return entries[last.stage] ?? 0;
    const next = decide(ways.map((way) => ({ ...way, steps: way.steps.slice(1) })));
    const row: Interval = { op: 'after', dial: words.dial(step), states: words.states(step) };
    return graph.add({ is: 'interval', row, label: words.label(step), next });
  };
  return decide;
}

/** Vehicles over a detector ask until they have gone. An extended stage sees to its detectors by itself. */
function clearedAtEnd(plan: JunctionPlan, called: ReadonlySet<string>, at: number, isSynced: boolean): string[] {
  const extended = isSynced ? [] : (plan.stages[at]?.extend?.detectors ?? []);
  return demands(plan, called, at, 'vehicle').filter((id) => !extended.includes(id));
}

function demands(
  plan: JunctionPlan,
  called: ReadonlySet<string>,
  at: number,
  kind: 'vehicle' | 'pedestrian',
): string[] {
  const phases = (plan.stages[at]?.phases ?? []).flatMap((phase) => plan.phases[phase] ?? []);
  const ids = phases.filter((it) => (it.kind ?? 'vehicle') === kind).flatMap((it) => it.demand ?? []);
  return [...new Set(ids)].filter((id) => called.has(id));
}

/** Inputs whose demands something waits for. */
export function usedDemands(plan: JunctionPlan): string[] {
  const asked = plan.stages.flatMap((_, at) => orderAfter(plan, at).followers.flatMap((it) => it.inputs ?? []));
  return [...new Set(asked)];
}

function clearing(words: RowWords, ids: readonly string[]) {
  const inputs = numbers(words, ids);
  return { is: 'clear', inputs, label: 'Their demand is served' } as const;
}

function clearNode(words: RowWords, graph: Graph, ids: readonly string[], next: NodeId): NodeId {
  return ids.length === 0 ? next : graph.add({ ...clearing(words, ids), next });
}
