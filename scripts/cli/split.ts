/** `amberwick split FILE --site S --flows 400,250`: greens of a junction from its traffic. */
import type { Layout } from '../../shared/layout/schema.ts';
import { applySplit, type Split, splitJunction } from '../../shared/signals/flows/split.ts';
import { SATURATION } from '../../shared/signals/flows/webster.ts';
import { misread, readList, reportLayout } from './keep-layout.ts';
import { loadGood } from './load.ts';
import { columns, type Report } from './output.ts';
import { readTime } from './times.ts';

export interface SplitOptions {
  readonly site: string;
  readonly flows: string;
  readonly saturation?: string;
  readonly lost?: string;
  readonly cycle?: string;
  readonly output?: string;
}

export function split(file: string, options: SplitOptions): Report {
  const flows = readList(options.flows);
  if (flows === null) return misread(`"${options.flows}" are no flows.`, 'Write one number a stage: --flows 400,250.');
  const saturations = readList(options.saturation ?? String(SATURATION.value));
  if (saturations === null || ![1, flows.length].includes(saturations.length)) {
    return misread(`"${options.saturation}" is no saturation flow.`, 'Write one number, or one for each stage.');
  }
  const times = { lost: optional(options.lost), cycle: optional(options.cycle) };
  for (const [name, ms] of Object.entries(times)) {
    if (ms === null) return misread(`The ${name} time is no time.`, 'Write seconds, such as 8 or 60.');
  }
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { layout } = loaded.value;
  const site = siteId(layout, options.site);
  const { split: found, findings } = splitJunction(layout, site, {
    stages: flows.map((flow, index) => [{ flow, saturation: saturations[index] ?? saturations[0] ?? 0 }]),
    ...(times.lost == null ? {} : { lostTime: times.lost / 1000 }),
    ...(times.cycle == null ? {} : { cycle: times.cycle / 1000 }),
  });
  if (found === null) return { exit: findings.some(({ code }) => code === 'unknown-site') ? 2 : 1, findings };
  const name = layout.sites.find(({ id }) => id === site)?.name ?? site;
  return reportLayout(applySplit(layout, site, found), options.output, findings, {
    data: { split: found },
    text: words(name, found),
  });
}

function optional(text: string | undefined): number | null | undefined {
  return text === undefined ? undefined : readTime(text);
}

/** By its id or its name. */
export function siteId(layout: Layout, wanted: string): string {
  return layout.sites.find(({ id, name }) => id === wanted || name === wanted)?.id ?? wanted;
}

function words(name: string, { webster, cycle, stages }: Split): string[] {
  const s = (value: number): string => `${value.toFixed(1)} s`;
  return [
    `${name}: Y ${webster.total.toFixed(3)}, lost time ${s(webster.lostTime)}, optimum cycle ${s(webster.optimum)}.`,
    `Greens for a cycle of ${s(cycle)}:`,
    ...columns([
      ['stage', '', 'y', 'by traffic', 'green'],
      ...stages.map((stage) => [stage.id, stage.name, stage.ratio.toFixed(3), s(stage.wanted), s(stage.green)]),
    ]),
  ];
}
