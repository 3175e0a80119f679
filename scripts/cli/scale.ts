/** `amberwick scale LENGTH`: from the street to the model and back; without a length, sizes of the street. */
import { Scale } from '../../shared/layout/schema.ts';
import { feetText, metricText, readLength } from '../../shared/scale/lengths.ts';
import { lightsFor, type Nearest } from '../../shared/scale/lights.ts';
import { ratioOf, SCALES, type ScaleOrRatio, scaleText, toModel } from '../../shared/scale/ratios.ts';
import { SIZES } from '../../shared/scale/sizes.ts';
import { modelSpeed, readSpeed } from '../../shared/scale/speeds.ts';
import { misread } from './keep-layout.ts';
import { columns, type Report } from './output.ts';

export interface ScaleOptions {
  readonly scale: string;
  /** The length is one of the model. */
  readonly back?: boolean;
}

export function scale(text: string | undefined, options: ScaleOptions): Report {
  const chosen = readScale(options.scale);
  if (chosen === null) {
    const known = SCALES.map(({ id }) => id).join(', ');
    return misread(`"${options.scale}" is no scale.`, `Write one of ${known}, or a ratio such as 1:50.`);
  }
  if (text === undefined) return sizes(chosen);
  const speed = readSpeed(text);
  if (speed !== null && options.back !== true) {
    const mm = modelSpeed(speed, chosen);
    return {
      exit: 0,
      data: { scale: options.scale, ratio: ratioOf(chosen), millimetresPerSecond: mm },
      text: [`${text.trim()} in ${scaleText(chosen)}: ${Math.round(mm)} mm a second. Times stay those of the street.`],
    };
  }
  const length = readLength(text);
  if (length === null)
    return misread(`"${text}" is no length.`, 'Write it with its unit: 7 ft, 7\'6", 2.1 m, 28 mm, 30mph.');
  const metres = options.back === true ? length * ratioOf(chosen) : length;
  const mm = toModel(metres, chosen);
  return {
    exit: 0,
    data: { scale: options.scale, ratio: ratioOf(chosen), metres, millimetres: mm, lights: lightsData(mm) },
    text: [
      `${scaleText(chosen)}: ${both(metres)} of the street are ${both(mm / 1000)} on the model.`,
      ...(mm <= 12 ? [`A light of that size: ${lightsText(mm)}.`] : []),
    ],
  };
}

/** An id of a scale in any case, `1:50`, or `50`. */
export function readScale(text: string): ScaleOrRatio | null {
  const known = Scale.options.find((id) => id.toLowerCase() === text.trim().toLowerCase());
  if (known !== undefined) return known === 'custom' ? null : known;
  const match = /^\s*(?:1\s*:\s*)(\d{1,4}(?:\.\d{1,3})?)\s*$/.exec(text);
  const ratio = Number(match?.[1]);
  return ratio >= 1 && ratio <= 1000 ? ratio : null;
}

const both = (metres: number): string => `${metricText(metres)} (${feetText(metres)})`;

function lightsText(mm: number): string {
  const { led, fibre } = lightsFor(mm);
  return [led, fibre].flatMap((it) => (it === null ? [] : [nearestText(it)])).join(', or ');
}

function nearestText({ light, difference }: Nearest): string {
  const off = Math.abs(difference).toFixed(2);
  if (off === '0.00') return `${light.name}, exactly`;
  return `${light.name}, ${off} mm ${difference > 0 ? 'larger' : 'smaller'}`;
}

function lightsData(mm: number): Record<string, unknown> {
  const { led, fibre } = lightsFor(mm);
  const said = (it: Nearest | null) => (it === null ? null : { name: it.light.name, difference: it.difference });
  return { led: said(led), fibre: said(fibre) };
}

function sizes(chosen: ScaleOrRatio): Report {
  const rows = SIZES.flatMap((group) =>
    group.sizes.map(({ name, usual, isLight }) => {
      const mm = toModel(usual.value, chosen);
      return [group.name, name, both(usual.value), metricText(mm / 1000), isLight ? lightsText(mm) : '', usual.source];
    }),
  );
  return {
    exit: 0,
    data: {
      ratio: ratioOf(chosen),
      sizes: SIZES.map(({ id, name, sizes: list }) => ({
        id,
        name,
        sizes: list.map((size) => ({
          id: size.id,
          name: size.name,
          metres: size.usual.value,
          millimetres: toModel(size.usual.value, chosen),
          source: size.usual.source,
        })),
      })),
    },
    text: [
      `Sizes in ${scaleText(chosen)}:`,
      ...columns([['what', '', 'on the street', 'on the model', 'light', 'source'], ...rows]),
    ],
  };
}
