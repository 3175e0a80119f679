import type { Load } from '../../shared/electrics/model.ts';
import type { Swap } from '../../shared/lampcheck/diagnose.ts';
import { newOutputs } from '../../shared/lampcheck/replan.ts';
import { colourOf } from './words.ts';

const ROW = 44;
const LEFT = 84;
const RIGHT = 300;

/** Outputs on the left, lamps on the right: broken lines as planned, whole ones as the wires really go. */
export function SwapPicture({ swap }: { readonly swap: Swap }) {
  const lamps = newOutputs(swap);
  const outputs = [...lamps].sort((a, b) => a.lamp.output - b.lamp.output).map(({ lamp }) => lamp);
  const y = (row: number): number => 24 + row * ROW;
  const rowOf = (output: number): number => outputs.findIndex((load) => load.output === output);
  // Where all of them are at one place, its name says nothing.
  const sites = new Set(lamps.map(({ lamp }) => lamp.siteName));
  const nameOf = (load: Load): string =>
    [...(sites.size > 1 ? [load.siteName] : []), load.label, colourOf(load)].join(', ');
  const words = lamps.map(({ lamp, outputName }) => `${nameOf(lamp)} really hangs on ${outputName}`);
  return (
    <svg
      class="swap-picture"
      viewBox={`0 0 640 ${24 + lamps.length * ROW}`}
      role="img"
      aria-label={`Crossed wires: ${words.join('; ')}`}
    >
      {outputs.map((load, row) => (
        <g key={load.lamp}>
          <text class="swap-text" x={LEFT - 14} y={y(row)} dy="0.35em" text-anchor="end">
            {load.outputName}
          </text>
          <text class="swap-text" x={RIGHT + 14} y={y(row)} dy="0.35em">
            {nameOf(load)}
          </text>
          <line class="swap-planned" x1={LEFT} y1={y(row)} x2={RIGHT} y2={y(row)} />
          <circle class="swap-end" cx={LEFT} cy={y(row)} r={5} />
          <circle class="swap-end" cx={RIGHT} cy={y(row)} r={5} />
        </g>
      ))}
      {lamps
        .filter(({ lamp }) => lamp !== swap.missing)
        .map(({ lamp, output }) => (
          <line
            key={lamp.lamp}
            class="swap-real"
            x1={LEFT}
            y1={y(rowOf(output))}
            x2={RIGHT}
            y2={y(rowOf(lamp.output))}
          />
        ))}
    </svg>
  );
}
