import type { BudgetLine } from '../../shared/electrics/budget.ts';
import { currentText } from './words.ts';

/** Drawn width, in units of the drawing. */
const WIDTH = 300;
const HEIGHT = 16;

/** One current against its limit: the worst as a bar, the average as a mark on it. */
export function Bar({ line }: { readonly line: BudgetLine }) {
  const { worst, average, limit, comfort, own } = line;
  const whole = limit === null ? worst : Math.max(limit, worst);
  const x = (milliamps: number): number => (whole === 0 ? 0 : (milliamps / whole) * WIDTH);
  const state = stateOf(line);
  return (
    <li class={`current-line ${state.is}`}>
      <span class="current-name">{line.name}</span>
      <span class="current-figure">
        {line.exact ? '' : 'at most '}
        {currentText(worst)}
        {limit !== null && ` of ${limit} mA`}
      </span>
      <svg class="current-bar" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="bar-room" width={WIDTH} height={HEIGHT} />
        <rect class="bar-worst" width={x(worst)} height={HEIGHT} />
        {comfort !== null && comfort < whole && (
          <rect class="bar-comfort" x={x(comfort) - 1} width={2} height={HEIGHT} />
        )}
        {limit !== null && worst > limit && <rect class="bar-limit" x={x(limit) - 1.5} width={3} height={HEIGHT} />}
        <rect class="bar-average" x={Math.max(0, x(average) - 1.5)} y={HEIGHT - 5} width={3} height={5} />
      </svg>
      <span class="current-more">
        average {currentText(average)}
        {own > 0 && `; ${currentText(own)} of both for itself`}
        {state.words !== '' && <b>; {state.words}</b>}
      </span>
    </li>
  );
}

/** In words, since no colour says it. */
function stateOf({ worst, limit, comfort }: BudgetLine): { is: 'within' | 'above' | 'over'; words: string } {
  if (limit !== null && worst > limit) return { is: 'over', words: 'over the limit' };
  if (comfort !== null && worst > comfort) return { is: 'above', words: `above the ${comfort} mA it is specified for` };
  return { is: 'within', words: limit === null ? 'no limit given' : '' };
}
