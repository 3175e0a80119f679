/** The direction indicators of one vehicle. */
import type { Indicators } from '../kinds/indicators.ts';
import { type LampOutput, outputOf } from './lamp-output.ts';

export interface IndicatorsWish {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  /** Outputs of the left and of the right lamps; front and rear share one. */
  readonly left?: LampOutput;
  readonly right?: LampOutput;
  /** Ids of inputs. Without them both sides flash all the time. */
  readonly switches?: { readonly left?: string; readonly right?: string; readonly hazard?: string };
}

export function makeIndicators({ id, name, board, left, right, switches }: IndicatorsWish): Indicators {
  return {
    kind: 'indicators',
    id,
    name,
    board,
    lamps: [
      ...(left === undefined ? [] : [{ id: 'left', name: 'Left', side: 'left' as const, ...outputOf(left) }]),
      ...(right === undefined ? [] : [{ id: 'right', name: 'Right', side: 'right' as const, ...outputOf(right) }]),
    ],
    ...(switches === undefined ? {} : { switches: { ...switches } }),
  };
}
