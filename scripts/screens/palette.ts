/** At most 256 colours for a picture: boxes of colours cut at their median, the one with most to lose first (Heckbert 1982). */
import type { Pixels } from './png.ts';

const COLOURS = 256;

interface Box {
  /** Colours as 0xRRGGBB with how often each is there. */
  readonly colours: readonly (readonly [colour: number, count: number])[];
  /** Shift of the channel that is spread most, and by how much, weighted by how many pixels have it. */
  readonly channel: number;
  readonly loss: number;
}

const part = (colour: number, shift: number): number => (colour >> shift) & 0xff;

export function quantise({ rgba }: Pixels): { readonly palette: Uint8Array; readonly indexes: Uint8Array } {
  const counts = new Map<number, number>();
  const colourAt = (pixel: number): number =>
    ((rgba[pixel * 4] ?? 0) << 16) | ((rgba[pixel * 4 + 1] ?? 0) << 8) | (rgba[pixel * 4 + 2] ?? 0);
  for (let pixel = 0; pixel < rgba.length / 4; pixel++) {
    const colour = colourAt(pixel);
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const boxes = [boxOf([...counts])];
  while (boxes.length < COLOURS) {
    const worst = boxes.reduce((a, b) => (b.loss > a.loss ? b : a));
    if (worst.loss === 0) break;
    boxes.splice(boxes.indexOf(worst), 1, ...cut(worst));
  }
  const palette = new Uint8Array(boxes.length * 3);
  const indexOf = new Map<number, number>();
  boxes.forEach(({ colours }, index) => {
    const total = colours.reduce((sum, [, count]) => sum + count, 0);
    [16, 8, 0].forEach((shift, at) => {
      const sum = colours.reduce((more, [colour, count]) => more + part(colour, shift) * count, 0);
      palette[index * 3 + at] = Math.round(sum / total);
    });
    for (const [colour] of colours) indexOf.set(colour, index);
  });
  const indexes = new Uint8Array(rgba.length / 4).map((_, pixel) => indexOf.get(colourAt(pixel)) ?? 0);
  return { palette, indexes };
}

function boxOf(colours: Box['colours']): Box {
  const spreads = [16, 8, 0].map((channel) => {
    const total = colours.reduce((sum, [, count]) => sum + count, 0);
    const mean = colours.reduce((sum, [colour, count]) => sum + part(colour, channel) * count, 0) / total;
    const loss = colours.reduce((sum, [colour, count]) => sum + count * (part(colour, channel) - mean) ** 2, 0);
    return { channel, loss };
  });
  const most = spreads.reduce((a, b) => (b.loss > a.loss ? b : a));
  return { colours, ...(colours.length === 1 ? { channel: 16, loss: 0 } : most) };
}

function cut({ colours, channel }: Box): [Box, Box] {
  const sorted = [...colours].sort((a, b) => part(a[0], channel) - part(b[0], channel));
  const half = sorted.reduce((sum, [, count]) => sum + count, 0) / 2;
  let at = 0;
  for (let sum = 0; at < sorted.length - 1 && sum + (sorted[at]?.[1] ?? 0) <= half; at++) sum += sorted[at]?.[1] ?? 0;
  const edge = Math.max(1, at);
  return [boxOf(sorted.slice(0, edge)), boxOf(sorted.slice(edge))];
}
