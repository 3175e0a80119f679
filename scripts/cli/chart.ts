/** `amberwick chart FILE --site S`: the phases, the stages or the green wave of a site as an SVG file. */
import { writeFileSync } from 'node:fs';
import { phaseChart } from '../../shared/drawings/phase-chart.ts';
import { phaseChartData } from '../../shared/drawings/phases/chart.ts';
import { type ChartSite, chartSite } from '../../shared/drawings/phases/source.ts';
import { stageDiagram } from '../../shared/drawings/stage-diagram.ts';
import { stageChanges } from '../../shared/drawings/stages/changes.ts';
import { streetOf } from '../../shared/drawings/street.ts';
import type { Theme } from '../../shared/drawings/theme.ts';
import { timeDistanceChart } from '../../shared/drawings/time-distance.ts';
import { type Finding, hasErrors } from '../../shared/findings/finding.ts';
import { practiceOf } from '../../shared/practice/custom/custom.ts';
import { readSpeed } from '../../shared/scale/speeds.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { findSite, type Loaded, loadGood } from './load.ts';
import type { Report } from './output.ts';

export interface ChartOptions {
  readonly site: string;
  readonly kind: string;
  readonly theme?: string;
  readonly speed: string;
  readonly output?: string;
}

type Drawn = { readonly svg: string; readonly findings: readonly Finding[] } | { readonly report: Report };

export function chart(file: string, options: ChartOptions): Report {
  const wrong = misread(options);
  if (wrong !== null) return wrong;
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const found = siteOf(loaded.value, options.site);
  if (found === null) return noSuchSite(loaded.value, options.site);
  const drawn = draw(loaded.value, found, options);
  if ('report' in drawn) return drawn.report;
  const findings = [...loaded.value.findings, ...drawn.findings];
  const about = { site: found.id, kind: options.kind };
  if (options.output === undefined) {
    return { exit: 0, findings, data: { ...about, svg: drawn.svg }, text: [drawn.svg] };
  }
  try {
    writeFileSync(options.output, `${drawn.svg}\n`);
  } catch (error) {
    return notWritten(options.output, error, findings);
  }
  return { exit: 0, findings, data: { ...about, file: options.output }, text: [`Wrote ${options.output}.`] };
}

function draw({ layout }: Loaded, site: ChartSite, { kind, theme, speed }: ChartOptions): Drawn {
  const look = { theme: (theme ?? 'auto') as Theme };
  if (kind === 'phases') return { svg: phaseChart(site, look), findings: [] };
  if (kind === 'distance') {
    const { data, findings } = streetOf(layout, site.id, readSpeed(speed) ?? 0);
    if (data === null || hasErrors(findings)) return { report: { exit: 1, findings } };
    return { svg: timeDistanceChart(data, look), findings };
  }
  if (site.site.kind !== 'junction') return { report: noStages(site.name) };
  const { practice } = practiceOf(layout);
  const changes = stageChanges(phaseChartData(site, 1000));
  return { svg: stageDiagram(site.site, { ...look, changes, drives: practice?.drives.value ?? 'left' }), findings: [] };
}

function siteOf({ layout, boards }: Loaded, wanted: string): ChartSite | null {
  for (const board of boards) {
    const index = findSite(board, wanted);
    if (index !== null) return chartSite(layout, board, index);
  }
  return null;
}

/** Arguments that no file could make right. */
function misread({ kind, theme, speed }: ChartOptions): Report | null {
  const choices: [string, string | undefined, readonly string[]][] = [
    ['kind', kind, ['phases', 'stages', 'distance']],
    ['theme', theme, ['dark', 'light']],
  ];
  for (const [name, value, known] of choices) {
    if (value === undefined || known.includes(value)) continue;
    return problem(
      'misread',
      `There is no ${name} "${value}".`,
      'The command could not be understood.',
      `Use one of these: ${known.join(', ')}.`,
    );
  }
  if (readSpeed(speed) !== null) return null;
  return problem(
    'misread',
    `"${speed}" is no speed.`,
    'The bands depend on how fast the traffic goes.',
    'Write a speed such as 30mph or 50km/h.',
  );
}

function problem(code: string, what: string, why: string, next: string, exit: 1 | 2 = 2): Report {
  return { exit, problem: { ...describeProblem('hostFailed', {}), code, what, why, next } };
}

function noSuchSite({ boards }: Loaded, wanted: string): Report {
  const ids = boards.flatMap((board) => board.sites.map((site) => site.id)).join(', ');
  return problem(
    'noSuchSite',
    `The layout has no site "${wanted}".`,
    'A chart shows one site.',
    `Its sites are ${ids}.`,
  );
}

function noStages(name: string): Report {
  return problem(
    'noStages',
    `${name} has no stages.`,
    'Only junctions have stages with arrows.',
    'Use --kind phases for it.',
    1,
  );
}

function notWritten(file: string, error: unknown, findings: readonly Finding[]): Report {
  const failed = problem(
    'notWritten',
    `${file} could not be written.`,
    'The folder may be missing or protected, or the disk full.',
    'Choose another place for the file.',
    1,
  );
  const detail = error instanceof Error ? error.message : String(error);
  return { ...failed, findings, ...(failed.problem && { problem: { ...failed.problem, detail } }) };
}
