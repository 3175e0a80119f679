import type { Ground, PlanRoad } from './ground.ts';
import type { SiteMarks } from './marks.ts';

const line = ({ points }: PlanRoad): string => points.map(({ x, y }) => `${x},${y}`).join(' ');

/** Pavement, kerb, asphalt and paint, each layer of all roads before the next so that roads run into each other. */
export function Roads({ ground, marks }: { readonly ground: Ground; readonly marks: readonly SiteMarks[] }) {
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
        <g key={site.id}>
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
          {site.crossing && <Zebra site={site} />}
        </g>
      ))}
    </g>
  );
}

/** Bars along the road, black between white, and studs on both sides. */
function Zebra({ site }: { readonly site: SiteMarks }) {
  const { crossing, place } = site;
  if (!crossing) return null;
  const { across, along } = crossing;
  const count = 2 * Math.round(across / 18) + 1;
  const width = across / count;
  const studs = Math.round(across / 12);
  return (
    <g transform={`translate(${place.x} ${place.y}) rotate(${place.turn})`}>
      <rect class="bare" x={-across / 2} y={-along / 2 - 40} width={across} height={along + 80} />
      {Array.from({ length: count }, (_, at) => at)
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
