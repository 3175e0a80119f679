import { useSignal } from '@preact/signals';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { phaseChart } from '../../shared/drawings/phase-chart.ts';
import { phaseChartData } from '../../shared/drawings/phases/chart.ts';
import type { ChartSite } from '../../shared/drawings/phases/source.ts';
import { stageDiagram } from '../../shared/drawings/stage-diagram.ts';
import { stageChanges } from '../../shared/drawings/stages/changes.ts';
import { practiceOf } from '../../shared/practice/custom/custom.ts';
import { usePanel } from '../model/context.ts';
import { LiveChart } from './live-chart.tsx';
import { chartOf } from './source.ts';
import { useDrawingRules } from './styles.ts';

/** Narrowest chart that can be read, px. */
const LEAST = 560;

/** The site at hand on paper: its phases along the cycle, and what may move in each stage. */
export function PhasesSheet() {
  const { model, surface } = usePanel();
  const frame = useRef<HTMLDivElement>(null);
  const width = useSignal(860);
  const theme = model.preferences.theme.value;
  useLayoutEffect(() => useDrawingRules(theme), [theme]);
  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = (): void => {
      if (element.clientWidth > 0) width.value = Math.max(LEAST, element.clientWidth);
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [width]);
  const site = model.siteAtHand.value;
  const chart = site && chartOf(model, site);
  return (
    <div class="phases" ref={frame}>
      {site && chart ? (
        <>
          <LiveChart key={site.id} site={site} chart={chart} width={width.value} />
          <p class="row">
            <button
              type="button"
              class="button"
              onClick={() => surface.saveFile(`${site.id}-phases.svg`, phaseChart(chart))}
            >
              Save as picture
            </button>
          </p>
          <Stages chart={chart} width={width.value} />
        </>
      ) : (
        <p>There is no site at hand. Mend what is wrong with the layout, or make a new site.</p>
      )}
    </div>
  );
}

function Stages({ chart, width }: { readonly chart: ChartSite; readonly width: number }) {
  const { model, surface } = usePanel();
  const { layout } = model.open.value;
  const junction = chart.site.kind === 'junction' ? chart.site : null;
  const times = chart.dials.join(' ');
  // The chart is another object each time; its times say whether it changed.
  const options = useMemo(() => {
    const drives = (layout && practiceOf(layout).practice?.drives.value) ?? 'left';
    return { drives, changes: stageChanges(phaseChartData(chart, 1000)), greens: greensOf(chart) };
  }, [layout, chart.program, times]);
  const svg = useMemo(
    () => (junction ? stageDiagram(junction, { ...options, width, bare: true }) : ''),
    [junction, options, width],
  );
  if (!junction) return null;
  return (
    <>
      <section
        class="stages"
        aria-label="Stages"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it may scroll, so the keyboard must reach it
        tabIndex={0}
        // shared/drawings makes the text and escapes every name in it.
        dangerouslySetInnerHTML={{ __html: svg }}
      />
      <p class="row">
        <button
          type="button"
          class="button"
          onClick={() => surface.saveFile(`${chart.id}-stages.svg`, stageDiagram(junction, options))}
        >
          Save the stages as picture
        </button>
      </p>
    </>
  );
}

/** Greens of the stages at the chart's times, ms. */
function greensOf({ site, program, dials }: ChartSite): number[] {
  if (site.kind !== 'junction') return [];
  return site.stages.map(({ id, green }) => {
    const dial = program.dials.findIndex(({ name }) => name === `green-${id}`);
    return dials[dial] ?? green * 1000;
  });
}
