/** Writes the program of a crossing or shuttle: rows in words, with dials, inputs and targets by name. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import { toMs } from '../../layout/scalars.ts';
import type { TimeRule } from '../../practice/practice.ts';
import type { Condition, Interval, Program, Row } from '../../table/model.ts';
import type { PlannedDial } from '../dials.ts';
import type { Planned } from '../site.ts';
import { type RoadLamp, type Show, statesOf } from './road-lamps.ts';
import { checkRule } from './road-times.ts';

type Words<T> = T extends { readonly states: unknown } ? Omit<T, 'states'> : never;
type Draft =
  | readonly [label: string, row: Row]
  | { readonly label: string; readonly when: Condition; readonly to: string };

export interface Ending {
  readonly name: string;
  readonly flash: Program['flash'];
  readonly fault: Show;
  readonly safe: Show;
  readonly conflicts: Program['conflicts'];
  /** Of the first interval, ms. */
  readonly offset: number;
  readonly cycle: number | null;
}

export class RoadProgram {
  readonly findings: Finding[] = [];
  private readonly path: string;
  private readonly lamps: readonly RoadLamp[];
  private readonly dials: PlannedDial[] = [];
  private readonly inputs: { readonly id: string; readonly path: string }[] = [];
  private readonly drafts: Draft[] = [];
  private readonly marks = new Map<string, number>();

  constructor(path: string, lamps: readonly RoadLamp[]) {
    this.path = path;
    this.lamps = lamps;
  }

  /**
   * Number of a dial by its rule; `given` in seconds, from the field `field` of the site. A second
   * call with the same id gives the same dial.
   */
  dial(id: string, rule: TimeRule, given?: number, field?: string): number {
    const known = this.dials.findIndex((it) => it.id === id);
    if (known >= 0) return known;
    if (field !== undefined) this.findings.push(...checkRule(given, rule, `${this.path}.${field}`));
    const value = given === undefined ? rule.usual.value : toMs(given);
    const [least, max] = rule.dial.value;
    // The board times nothing shorter.
    const min = Math.max(10, least);
    const limits = { min: Math.min(min, value), max: Math.max(max, value) };
    return this.dials.push({ id, name: rule.name, ...limits, value, rule }) - 1;
  }

  /** A dial that no rule of the practice is behind. */
  offset(dial: PlannedDial): number {
    return this.dials.push(dial) - 1;
  }

  /** A dial that stands still. */
  fixed(id: string, name: string, ms: number): number {
    const known = this.dials.findIndex((it) => it.id === id);
    return known >= 0 ? known : this.dials.push({ id, name, min: ms, max: ms, value: ms }) - 1;
  }

  dialValue(dial: number): number {
    return this.dials[dial]?.value ?? 0;
  }

  /** The dials' times of all rows so far that end by time alone, ms; of random ones the least. */
  spans(): number {
    return this.drafts.reduce((sum, draft) => {
      if ('to' in draft) return sum;
      const [, row] = draft;
      const dial = row.op === 'after' ? row.dial : row.op === 'random' ? row.low : null;
      return dial === null ? sum : sum + this.dialValue(dial);
    }, 0);
  }

  /** Numbers of the inputs that a list of the document names. */
  input(ids: readonly string[], field: string): number[] {
    return [...new Set(ids)].map((id) => this.oneInput(id, `${field}[${ids.indexOf(id)}]`));
  }

  oneInput(id: string, field: string): number {
    const known = this.inputs.findIndex((it) => it.id === id);
    return known >= 0 ? known : this.inputs.push({ id, path: `${this.path}.${field}` }) - 1;
  }

  interval(label: string, row: Words<Interval>, show: Show): void {
    this.drafts.push([label, { ...row, states: statesOf(this.lamps, show) } as Interval]);
  }

  /** Takes back demands; nothing where there are no inputs. */
  clear(inputs: readonly number[]): void {
    if (inputs.length > 0) this.drafts.push(['Demand is served', { op: 'clear', inputs }]);
  }

  mark(name: string): void {
    this.marks.set(name, this.drafts.length);
  }

  jump(label: string, when: Condition, to: string): void {
    this.drafts.push({ label, when, to });
  }

  finish(ending: Ending): Planned {
    const { findings } = this;
    if (this.lamps.length === 0) findings.push(noLamps(this.path));
    if (hasErrors(findings)) return { plan: null, findings };
    const rows = this.drafts.map((draft): Row => {
      if (!('to' in draft)) return draft[1];
      // A mark at the end means the first row, which comes after the last one.
      const to = (this.marks.get(draft.to) ?? 0) % this.drafts.length;
      return { op: 'jump', when: draft.when, to };
    });
    return {
      plan: {
        program: {
          name: ending.name,
          lamps: this.lamps.map((lamp) => `${lamp.label} ${lamp.part}`),
          dials: this.dials.map(({ id, min, max }) => ({ name: id, min, max })),
          inputs: this.inputs.map((input) => input.id),
          flash: ending.flash,
          fault: statesOf(this.lamps, ending.fault),
          safe: statesOf(this.lamps, ending.safe),
          conflicts: ending.conflicts,
          rows,
        },
        start: 0,
        offset: ending.offset,
        dials: this.dials,
        lamps: this.lamps.map(({ label, colour, output, path }) => ({ label, colour, output, path })),
        inputs: this.inputs,
        rows: this.drafts.map((draft) => ({ label: 'to' in draft ? draft.label : draft[0] })),
        cycle: ending.cycle,
      },
      findings,
    };
  }
}

export const ALWAYS: Condition = { kind: 'noDemand', inputs: [] };

function noLamps(path: string): Finding {
  return error('no-lamps', path, {
    what: 'The site has no lamps.',
    why: 'Without it there is nothing to run.',
    cure: 'Add its lamps with their pins.',
  });
}
