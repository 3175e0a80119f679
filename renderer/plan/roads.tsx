import { useComputed } from '@preact/signals';
import type { Ground, PlanRoad } from './ground.ts';
import type { SiteMarks } from './marks.ts';
import type { Moving } from './moving.ts';

const line = ({ points }: PlanRoad): string => points.map(({ x, y }) => `${x},${y}`).join(' ');

interface Props {
  readonly ground: Ground;
  readonly marks: readonly SiteMarks[];
  /** Absent where nothing is moved. */
  readonly moving?: Moving;
}

/** Pavement, kerb, asphalt and paint, each layer of all roads before the next so that roads run into each other. */
export function Roads({ ground, marks, moving }: Props) {
  const layers = [
    { name: 'pavement', wider: 44 },
    { name: 'kerb', wider: 7 },
    { name: 'asphalt', wider: 0 },
  ];
  return (
    <g class="roads">
      {layers.map(({ name, wider }) =>
        ground.roads.map((road) => (
          <polyline key={`${name} ${road.id}`} class={name} points={line(road)} stroke-width={road.width + wider} />
        )),
      )}
      {ground.roads.map((road) => (
        <polyline key={road.id} class="middle" points={line(road)} />
      ))}
      {marks.map((site) => (
        <Paint key={site.id} site={site} {...(moving && { moving })} />
      ))}
    </g>
  );
}

/** What is painted on the road at a site; it goes along while the site is moved. */
function Paint({ site, moving }: { readonly site: SiteMarks; readonly moving?: Moving }) {
  const way = useComputed(() => moving?.transform(site.id) ?? '');
  return (
    <g transform={way}>
      {site.bare.map(({ from, to, width }) => (
        <line
          key={`${to.x} ${to.y}`}
          class="worn"
          x1={from.x}
          y1={from.y}
          x2={to.x}
          y2={to.y}
          stroke-width={width - 6}
        />
      ))}
      {site.stopLines.map(([from, to]) => (
        <line key={`${from.x} ${from.y}`} class="stop-line" x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
      ))}
      {site.crossing && <Across site={site} />}
      {site.works && <Works site={site} />}
    </g>
  );
}

/** What crosses the road. */
function Across({ site }: { readonly site: SiteMarks }) {
  if (site.crossing?.is === 'track') return <Track site={site} />;
  return <Pedestrians site={site} />;
}

/** Bars along the road, black between white, where it is a zebra; studs on both sides of any crossing. */
function Pedestrians({ site }: { readonly site: SiteMarks }) {
  const { crossing, place } = site;
  if (!crossing) return null;
  const { across, along } = crossing;
  const count = 2 * Math.round(across / 18) + 1;
  const width = across / count;
  const studs = Math.round(across / 12);
  return (
    <g transform={`translate(${place.x} ${place.y}) rotate(${place.turn})`}>
      <rect class="bare" x={-across / 2} y={-along / 2 - 40} width={across} height={along + 80} />
      {Array.from({ length: crossing.is === 'bars' ? count : 0 }, (_, at) => at)
        .filter((at) => at % 2 === 0)
        .map((at) => (
          <rect key={at} class="bar" x={-across / 2 + at * width} y={-along / 2} width={width} height={along} />
        ))}
      {[-1, 1].flatMap((side) =>
        Array.from({ length: studs }, (_, at) => (
          <rect
            key={`${side} ${at}`}
            class="stud"
            x={-across / 2 + ((at + 0.5) * across) / studs - 1.6}
            y={side * (along / 2 + 13) - 1.6}
            width={3.2}
            height={3.2}
          />
        )),
      )}
    </g>
  );
}

/** Sleepers and two rails, a little beyond the kerbs. */
function Track({ site }: { readonly site: SiteMarks }) {
  const { crossing, place } = site;
  if (!crossing) return null;
  const { across, along } = crossing;
  const reach = across / 2 + 46;
  const sleepers = Math.round(reach / 9);
  return (
    <g transform={`translate(${place.x} ${place.y}) rotate(${place.turn})`}>
      <rect class="bare" x={-across / 2} y={-along / 2 - 16} width={across} height={along + 32} />
      {Array.from({ length: sleepers }, (_, at) => (
        <rect
          key={at}
          class="sleeper"
          x={-reach + ((at + 0.5) * 2 * reach) / sleepers - 3.5}
          y={-along / 2 + 4}
          width={7}
          height={along - 8}
        />
      ))}
      {[-1, 1].map((side) => (
        <rect key={side} class="rail" x={-reach} y={side * 12 - 2} width={2 * reach} height={4} />
      ))}
    </g>
  );
}

/** A closed half of the road, with its barriers. */
function Works({ site }: { readonly site: SiteMarks }) {
  const { works, place } = site;
  if (!works) return null;
  const { across, along } = works;
  const posts = Math.round(along / 18);
  return (
    <g transform={`translate(${place.x} ${place.y}) rotate(${place.turn})`}>
      <rect class="bare" x={-across / 2 + 4} y={-along / 2 - 20} width={across - 8} height={along + 40} />
      <rect class="trench" x={-across / 2 + 8} y={-along / 2 + 8} width={across / 2 - 14} height={along - 16} rx={4} />
      {Array.from({ length: posts }, (_, at) => (
        <rect
          key={at}
          class={at % 2 === 0 ? 'barrier' : 'barrier dark'}
          x={-2}
          y={-along / 2 + (at * along) / posts}
          width={5}
          height={along / posts}
        />
      ))}
    </g>
  );
}
