/** From a site given row by row to a program. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { ProgramRow, ProgramSite, When } from '../layout/program.ts';
import { toMs } from '../layout/scalars.ts';
import type { Condition, Interval, LampState, Program, Row } from '../table/model.ts';
import { duplicateIds } from './names.ts';
import { planRawDials } from './raw-dials.ts';
import type { Planned } from './site.ts';

type Shows = Readonly<Record<string, LampState>>;

export function planProgram(site: ProgramSite, path: string): Planned {
  const reader = new Reader(site, path);
  const rows = site.rows.map((row, index) => reader.row(row, `${path}.rows[${index}]`));
  const fault = reader.states(site.fault ?? {}, `${path}.fault`);
  const safe = reader.states(site.safe ?? {}, `${path}.safe`);
  const conflicts = (site.conflicts ?? []).map(([one, other], index): [number, number] => [
    reader.lamp(one, `${path}.conflicts[${index}][0]`),
    reader.lamp(other, `${path}.conflicts[${index}][1]`),
  ]);
  const flash =
    site.flash === undefined
      ? null
      : { on: reader.dial(site.flash.on, `${path}.flash.on`), off: reader.dial(site.flash.off, `${path}.flash.off`) };
  const start = site.start === undefined ? 0 : reader.label(site.start, `${path}.start`);
  const findings = [...reader.findings];
  if (!hasErrors(findings)) findings.push(...checkRows(site, path, rows, conflicts, fault, safe));
  const dials = planRawDials(site, path, rows, flash);
  findings.push(...dials.findings);
  if (hasErrors(findings)) return { plan: null, findings };
  const program: Program = {
    name: site.name,
    lamps: site.lamps.map((lamp) => lamp.id),
    dials: dials.dials.map(({ id, min, max }) => ({ name: id, min, max })),
    inputs: reader.inputs.map((input) => input.id),
    flash,
    fault,
    safe,
    conflicts,
    rows,
  };
  return {
    plan: {
      program,
      start,
      offset: toMs(site.startDelay ?? 0),
      dials: dials.dials,
      lamps: site.lamps.map((lamp, index) => ({
        label: lamp.name ?? lamp.id,
        colour: lamp.colour,
        output: lamp,
        path: `${path}.lamps[${index}]`,
      })),
      inputs: reader.inputs,
      rows: site.rows.map((row, index) => ({ label: row.label ?? `Row ${index + 1}: ${row.do}` })),
      cycle: null,
    },
    findings,
  };
}

/** Turns names into numbers and collects what is not found. */
class Reader {
  readonly findings: Finding[];
  /** Inputs in the order of their first use. */
  readonly inputs: { readonly id: string; readonly path: string }[] = [];
  private readonly site: ProgramSite;

  constructor(site: ProgramSite, path: string) {
    this.site = site;
    this.findings = [
      ...duplicateIds(site.lamps, `${path}.lamps`, 'lamp'),
      ...duplicateIds(site.dials, `${path}.dials`, 'dial'),
      ...duplicateIds(site.rows, `${path}.rows`, 'row', 'label'),
    ];
  }

  lamp(id: string, path: string): number {
    return this.find(this.site.lamps, id, path, 'lamp');
  }

  dial(id: string, path: string): number {
    return this.find(this.site.dials, id, path, 'dial');
  }

  label(id: string, path: string): number {
    const labels = this.site.rows.map((row) => ({ id: row.label ?? '' }));
    return this.find(labels, id, path, 'row');
  }

  states(show: Shows, path: string): LampState[] {
    for (const id of Object.keys(show)) this.lamp(id, `${path}.${id}`);
    return this.site.lamps.map((lamp) => (Object.hasOwn(show, lamp.id) ? (show[lamp.id] ?? 'dark') : 'dark'));
  }

  row(row: ProgramRow, path: string): Row {
    const dial = (key: string, id: string): number => this.dial(id, `${path}.${key}`);
    const states = (): LampState[] => ('show' in row ? this.states(row.show, `${path}.show`) : []);
    switch (row.do) {
      case 'after':
        return { op: 'after', dial: dial('dial', row.dial), states: states() };
      case 'until':
        return {
          op: 'until',
          min: dial('least', row.least),
          when: this.when(row.when, `${path}.when`),
          states: states(),
        };
      case 'untilMax': {
        const [min, max] = [dial('least', row.least), dial('most', row.most)];
        return { op: 'untilMax', min, max, when: this.when(row.when, `${path}.when`), states: states() };
      }
      case 'extend': {
        const [min, gap, max] = [dial('least', row.least), dial('gap', row.gap), dial('most', row.most)];
        const detectors = this.list(row.detectors, `${path}.detectors`);
        return {
          op: 'extend',
          min,
          gap,
          max,
          detectors,
          opposing: this.list(row.opposing, `${path}.opposing`),
          states: states(),
        };
      }
      case 'random':
        return { op: 'random', low: dial('low', row.low), high: dial('high', row.high), states: states() };
      case 'sync':
        return { op: 'sync', min: dial('least', row.least), offset: dial('offset', row.offset), states: states() };
      case 'jump':
        return { op: 'jump', when: this.when(row.when, `${path}.when`), to: this.label(row.to, `${path}.to`) };
      case 'clear':
      case 'latch':
        return { op: row.do, inputs: this.list(row.inputs, `${path}.inputs`) };
    }
  }

  private when(when: When, path: string): Condition {
    if (when.is === 'chance') return { kind: 'chance', outOf256: when.outOf256 };
    return { kind: when.is, inputs: this.list(when.inputs, `${path}.inputs`) };
  }

  /** Whether the layout has the inputs is checked with the board's inputs. */
  private list(ids: readonly string[], path: string): number[] {
    return [...new Set(ids)].map((id) => {
      const known = this.inputs.findIndex((input) => input.id === id);
      return known >= 0 ? known : this.inputs.push({ id, path: `${path}[${ids.indexOf(id)}]` }) - 1;
    });
  }

  private find(list: readonly { readonly id: string }[], id: string, path: string, kind: string): number {
    const index = list.findIndex((item) => item.id === id);
    if (index >= 0) return index;
    const known = list.map((item) => item.id).filter((item) => item !== '');
    this.findings.push(
      error(`unknown-${kind}`, path, {
        what: `${this.site.name} has no ${kind} "${id}".`,
        why: `A site's rows speak of its own ${kind}s.`,
        cure: known.length === 0 ? `Add the ${kind}.` : `Use one of these: ${known.slice(0, 12).join(', ')}.`,
      }),
    );
    return 0;
  }
}

/** The rules of a consistent image that need more than names (firmware/PROTOCOL.md chapter 2). */
function checkRows(
  site: ProgramSite,
  path: string,
  rows: readonly Row[],
  conflicts: readonly (readonly [number, number])[],
  fault: readonly LampState[],
  safe: readonly LampState[],
): Finding[] {
  const findings: Finding[] = [];
  const shown: [string, readonly LampState[]][] = [
    ...rows.flatMap((row, index): [string, readonly LampState[]][] =>
      'states' in row ? [[`${path}.rows[${index}].show`, row.states]] : [],
    ),
    [`${path}.fault`, fault],
    [`${path}.safe`, safe],
  ];
  for (const [place, states] of shown) {
    const pair = conflicts.find((lamps) => lamps.every((lamp) => states[lamp] !== 'dark'));
    if (pair !== undefined) findings.push(conflictingLamps(site, pair, place));
  }
  rows.forEach((row, index) => {
    const kind = 'when' in row ? row.when.kind : null;
    const misplaced = (kind === 'changed' && row.op === 'jump') || (kind === 'chance' && row.op !== 'jump');
    if (misplaced) findings.push(notHere(`${path}.rows[${index}].when`, kind));
    if (row.op === 'sync' && site.group === undefined) findings.push(syncAlone(`${path}.rows[${index}]`));
  });
  if (!rows.some((row): row is Interval => 'states' in row)) findings.push(noInterval(`${path}.rows`));
  return findings;
}

function conflictingLamps(site: ProgramSite, pair: readonly [number, number], path: string): Finding {
  const [one, other] = pair.map((lamp) => site.lamps[lamp]?.id);
  return error('conflicting-lamps', path, {
    what: `"${one}" and "${other}" conflict and are both lit or flashing here.`,
    why: 'The board refuses a table that shows them together.',
    cure: 'Leave one of them dark, or take the pair out of the conflicts.',
  });
}

function notHere(path: string, kind: string | null): Finding {
  return error('condition-not-here', path, {
    what: `"${kind}" cannot stand in this row.`,
    why: '"changed" looks back to the begin of an until row; "chance" is drawn once, in a jump.',
    cure: kind === 'chance' ? 'Put it in a jump.' : 'Put it in an until or untilMax row.',
  });
}

function syncAlone(path: string): Finding {
  return error('sync-without-group', path, {
    what: 'The row waits for a common cycle, and the site has no group.',
    why: 'It would wait for ever.',
    cure: 'Give the site a group.',
  });
}

function noInterval(path: string): Finding {
  return error('no-interval', path, {
    what: 'None of the rows shows lamps.',
    why: 'Jumps, clear and latch take no time: the site would never come to rest.',
    cure: 'Add a row that shows lamps, such as "do": "after".',
  });
}
