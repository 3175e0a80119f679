/** Colours as eyes see them: luminance, contrast, and what is left of them without one kind of cone. */

/** Red, green and blue, 0 to 1, linear in light. */
export type Light = readonly [red: number, green: number, blue: number];

/** One byte of a screen to light: IEC 61966-2-1, as WCAG 2.1 quotes it. */
const linear = (byte: number): number => {
  const part = byte / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
};

export const lightOf = (red: number, green: number, blue: number): Light => [linear(red), linear(green), linear(blue)];

/** Relative luminance, WCAG 2.1. */
export const luminance = ([red, green, blue]: Light): number => 0.2126 * red + 0.7152 * green + 0.0722 * blue;

/** Contrast ratio, WCAG 2.1: 1 to 21. */
export function contrast(one: Light, other: Light): number {
  const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

/**
 * Severity 1.0 of G. M. Machado, M. M. Oliveira, L. A. F. Fernandes: A Physiologically-based Model for Simulation of
 * Color Vision Deficiency, IEEE Transactions on Visualization and Computer Graphics 15 (6), 2009; rows give red, green
 * and blue. Without any cone only the luminance is left.
 */
const MATRICES = {
  'all cones': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  achromatopsia: [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
} as const;

export type Eyes = keyof typeof MATRICES;
export const EYES = Object.keys(MATRICES) as Eyes[];

/** The matrices are for light, not for the bytes of a screen; what falls outside the screen's colours is cut off. */
export function seenBy(eyes: Eyes, light: Light): Light {
  const [red, green, blue] = MATRICES[eyes].map(([r, g, b]) => {
    const part = r * light[0] + g * light[1] + b * light[2];
    return Math.min(1, Math.max(0, part));
  });
  return [red ?? 0, green ?? 0, blue ?? 0];
}

/** `rgb(1, 2, 3)` and `rgba(1, 2, 3, 0.5)` as a browser computes them. */
export function parseColour(text: string): { readonly light: Light; readonly alpha: number } {
  const [red = 0, green = 0, blue = 0, alpha = 1] = (text.match(/[\d.]+/g) ?? []).map(Number);
  return { light: lightOf(red, green, blue), alpha };
}
