/** `amberwick wave FILE --sites a,b,c --speed 30mph`: offsets of a row of junctions, and the bands they give. */
import { type Finding, hasErrors } from '../../shared/findings/finding.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { distancesAlong, fromFirst } from '../../shared/scale/distances.ts';
import { ratioIn } from '../../shared/scale/ratios.ts';
import { milesPerHour, modelSpeed, readSpeed } from '../../shared/scale/speeds.ts';
import { applyWave } from '../../shared/signals/progression/apply.ts';
import { GOOD_EFFICIENCY } from '../../shared/signals/progression/bands.ts';
import { planStreet } from '../../shared/signals/progression/layout.ts';
import { linksOf } from '../../shared/signals/progression/links.ts';
import { searchOffsets, type Wave } from '../../shared/signals/progression/search.ts';
import type { Street } from '../../shared/signals/progression/street.ts';
import { misread, readList, reportLayout } from './keep-layout.ts';
import { loadGood } from './load.ts';
import { columns, type Report } from './output.ts';
import { siteId } from './split.ts';
import { readTime } from './times.ts';

export interface WaveOptions {
  readonly sites: string;
  readonly speed: string;
  readonly distances?: string;
  readonly phases?: string;
  readonly weights?: string;
  readonly cycle?: string;
  readonly output?: string;
}

export function wave(file: string, options: WaveOptions): Report {
  const speed = readSpeed(options.speed);
  if (speed === null)
    return misread(`"${options.speed}" is no speed.`, 'Write it as 30mph, 50km/h, 13.4m/s or 40ft/s.');
  const weights = readList(options.weights ?? '1,1');
  if (weights?.length !== 2 || weights.some((weight) => weight < 0)) {
    return misread(`"${options.weights}" are no weights.`, 'Write two numbers, out and back: --weights 2,1.');
  }
  const legs = options.distances === undefined ? undefined : readList(options.distances);
  if (legs === null)
    return misread(
      `"${options.distances}" are no distances.`,
      'Write millimetres on the layout, from each junction to the next: 720,540.',
    );
  const cycle = options.cycle === undefined ? undefined : readTime(options.cycle);
  if (cycle === null) return misread('The cycle is no time.', 'Write seconds, such as 60.');
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { layout } = loaded.value;
  const sites = options.sites.split(',').map((site) => siteId(layout, site.trim()));
  const phases = options.phases?.split(',').map((phase) => phase.trim());
  const { metres, findings } =
    legs === undefined ? distancesAlong(layout, sites) : { metres: fromFirst(legs, ratioIn(layout)), findings: [] };
  if (metres === null) return failed(findings);
  const planned = planStreet(layout, {
    sites,
    distances: metres,
    speed: { out: speed, back: speed },
    ...(cycle === undefined ? {} : { cycle: cycle / 1000 }),
    ...(phases === undefined ? {} : { phases: { out: phases, back: phases } }),
  });
  if (planned.street === null) return failed(planned.findings);
  const found = searchOffsets(planned.street, { weights: { out: weights[0] ?? 1, back: weights[1] ?? 1 } });
  const applied = applyWave(layout, planned.street, found);
  return reportLayout(applied.layout, options.output, [...planned.findings, ...applied.findings], {
    data: { street: planned.street, wave: found },
    text: words(layout, planned.street, found),
  });
}

function failed(findings: readonly Finding[]): Report {
  return { exit: findings.some(({ code }) => code === 'unknown-site') ? 2 : hasErrors(findings) ? 1 : 0, findings };
}

function words(layout: Layout, street: Street, { offsets, out, back }: Wave): string[] {
  const s = (value: number): string => `${value.toFixed(1)} s`;
  const { out: speed } = street.speed;
  const late = (direction: 'out' | 'back', id: string): string => {
    const link = linksOf(street, offsets, direction).find(({ to }) => to === id);
    return link === undefined ? '' : s(link.late);
  };
  const percent = (share: number): string => `${(share * 100).toFixed(0)} %`;
  const [good] = GOOD_EFFICIENCY.value;
  return [
    `${street.name} at ${milesPerHour(speed).toFixed(1)} mph (${(speed * 3.6).toFixed(1)} km/h; ${modelSpeed(speed, ratioIn(layout)).toFixed(0)} mm a second on the layout), cycle ${s(street.cycle)}.`,
    ...columns([
      ['junction', 'at', 'green', 'offset', 'late out', 'late back'],
      ...street.stops.map(({ id, name, distance, out: green }, index) => [
        name,
        `${distance.toFixed(1)} m`,
        s(green.length),
        s(offsets[index] ?? 0),
        late('out', id),
        late('back', id),
      ]),
    ]),
    `Band out ${s(out.width)} (${percent(out.efficiency)} of the cycle), back ${s(back.width)} (${percent(back.efficiency)}); ${percent(good)} and more is good.`,
  ];
}
