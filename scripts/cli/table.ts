/** `amberwick table FILE`: the phase tables, interval by interval. */
import type { Condition, Row } from '../../shared/table/model.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { findSite, type LoadedBoard, loadGood } from './load.ts';
import { columns, type Report } from './output.ts';

interface TableRow {
  readonly row: number;
  readonly label: string;
  readonly lamps: Readonly<Record<string, string>> | null;
  readonly rule: string;
  readonly dial: string | null;
  readonly ms: number | null;
}

interface SiteTable {
  readonly board: string;
  readonly site: string;
  readonly name: string;
  readonly rows: readonly TableRow[];
}

export function table(file: string, options: { readonly site?: string }): Report {
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { boards, findings } = loaded.value;
  const wanted = options.site;
  const sites = boards.flatMap((board) => {
    if (wanted === undefined) return board.sites.map((_, index) => siteTable(board, index));
    const index = findSite(board, wanted);
    return index === null ? [] : [siteTable(board, index)];
  });
  if (wanted !== undefined && sites.length === 0) return noSuchSite(boards, wanted);
  return { exit: 0, findings, data: { sites }, text: sites.flatMap(siteText) };
}

function siteTable(board: LoadedBoard, index: number): SiteTable {
  const site = board.sites[index];
  const binding = board.table.sites[index];
  const program = board.table.programs[binding?.program ?? 0];
  const lampName = (lamp: number): string => {
    const { label, colour } = site?.lamps[lamp] ?? { label: 'lamp', colour: String(lamp) };
    return `${label} ${colour}`;
  };
  const rows = (program?.rows ?? []).map((row, number): TableRow => {
    const dial = timingDial(row);
    return {
      row: number,
      label: site?.rows[number]?.label ?? '',
      lamps: 'states' in row ? Object.fromEntries(row.states.map((state, lamp) => [lampName(lamp), state])) : null,
      rule: ruleText(row, (dialNumber) => `${site?.dials[dialNumber]?.name ?? dialNumber}`),
      dial: dial === null ? null : (site?.dials[dial]?.name ?? String(dial)),
      ms: dial === null ? null : (binding?.dials[dial] ?? null),
    };
  });
  return { board: board.id, site: site?.id ?? '', name: site?.name ?? '', rows };
}

/** The dial that an interval lasts for, or at least for. */
function timingDial(row: Row): number | null {
  if (row.op === 'after') return row.dial;
  if (row.op === 'random') return row.low;
  return 'min' in row ? row.min : null;
}

function ruleText(row: Row, dial: (number: number) => string): string {
  switch (row.op) {
    case 'after':
      return 'after the time';
    case 'until':
      if (isNever(row.when)) return 'stays for ever';
      return `at least the time, until ${conditionText(row.when)}`;
    case 'untilMax':
      return `at least the time, until ${conditionText(row.when)}, at most ${dial(row.max)}`;
    case 'extend':
      return `at least the time, extended by inputs ${row.detectors.join(', ')} with gap ${dial(row.gap)}, at most ${dial(row.max)}`;
    case 'random':
      return `a random time up to ${dial(row.high)}`;
    case 'sync':
      return `at least the time, until ${dial(row.offset)} of the common cycle`;
    case 'jump':
      return `go to row ${row.to} if ${conditionText(row.when)}`;
    case 'clear':
      return `forget demands of inputs ${row.inputs.join(', ')}`;
    case 'latch':
      return `demand for inputs ${row.inputs.join(', ')}`;
  }
}

const CONDITIONS: Readonly<Record<Exclude<Condition['kind'], 'chance'>, string>> = {
  demand: 'a demand at',
  noDemand: 'no demand at',
  active: 'any active of',
  inactive: 'none active of',
  changed: 'a change at',
  allActive: 'all active of',
  notAll: 'not all active of',
};

/** A question about no input at all (firmware/PROTOCOL.md, chapter 2). */
function isNever(when: Condition): boolean {
  return 'inputs' in when && when.inputs.length === 0 && ['demand', 'active', 'changed', 'notAll'].includes(when.kind);
}

function conditionText(when: Condition): string {
  if (when.kind === 'chance') return `chance (${when.outOf256} in 256)`;
  return `${CONDITIONS[when.kind]} inputs ${when.inputs.join(', ') || 'none'}`;
}

function siteText({ name, site, rows }: SiteTable): string[] {
  const body = rows.map((row) => [
    String(row.row),
    row.label,
    row.ms === null ? '' : timeText(row.ms),
    row.ms === null ? '' : `${row.ms} ms`,
    row.dial ?? '',
    row.rule,
    row.lamps ? showing(row.lamps) : '',
  ]);
  return ['', `${name} (${site})`, ...columns([['row', '', 'time', '', 'dial', 'rule', 'not dark'], ...body])];
}

function showing(lamps: Readonly<Record<string, string>>): string {
  const shown = Object.entries(lamps).filter(([, state]) => state !== 'dark');
  return shown.map(([lamp, state]) => (state === 'lit' ? lamp : `${lamp} (${state})`)).join(', ') || 'none';
}

function noSuchSite(boards: readonly LoadedBoard[], wanted: string): Report {
  const ids = boards.flatMap((board) => board.sites.map((site) => site.id)).join(', ');
  const problem = describeProblem('noSuchBoard', {});
  return {
    exit: 2,
    problem: {
      ...problem,
      code: 'noSuchSite',
      what: `The layout has no site "${wanted}".`,
      next: `Its sites are ${ids}.`,
    },
  };
}
