/** A ruler that shows whether the printer kept the scale. */
import { element, words } from '../svg.ts';
import { TEXT_MM } from './block.ts';
import { html, paragraph } from './html.ts';

/** Length between the first and the last stroke, mm. */
export const RULER = 100;
const EDGE = 5;
const HEIGHT = 14;

export function ruler(): string {
  const strokes = Array.from({ length: RULER + 1 }, (_, mm) => {
    const length = mm % 10 === 0 ? 6 : mm % 5 === 0 ? 4.5 : 3;
    return `M${EDGE + mm} 1V${1 + length}`;
  });
  const figures = Array.from({ length: RULER / 10 + 1 }, (_, cm) =>
    words(String(cm * 10), { x: EDGE + cm * 10, y: 10, anchor: 'middle' }),
  );
  const width = RULER + 2 * EDGE + 8;
  return html(
    'figure',
    { class: 'ruler' },
    element(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        width: `${width}mm`,
        height: `${HEIGHT}mm`,
        viewBox: `0 0 ${width} ${HEIGHT}`,
        'font-size': TEXT_MM,
        role: 'img',
        'aria-label': `Ruler of ${RULER} mm`,
      },
      element('path', { class: 'line', d: `M${EDGE} 1H${EDGE + RULER}${strokes.join('')}` }),
      ...figures,
      words('mm', { x: EDGE + RULER + 5, y: 10 }),
    ),
    paragraph(
      `Lay a steel rule on it: from 0 to ${RULER} has to measure ${RULER} mm. If it does not, print again at 100 % ` +
        '(“actual size”), not “fit to page”. If your printer cannot, multiply what you measure on the drawings by ' +
        `${RULER} and divide it by the measured length of the ruler; the figures in the table are right as they stand.`,
    ),
  );
}
