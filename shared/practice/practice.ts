/** What the rules of one country and era look like as data. All times in ms. */
import type { Fact } from './fact.ts';
import type {
  CrossingPractice,
  JunctionPractice,
  LampPractice,
  LevelCrossingPractice,
  PedestrianPractice,
  PelicanPractice,
  RailwayPractice,
  ShuttlePractice,
  Viewing,
  ZebraPractice,
} from './kinds.ts';

export * from './fact.ts';
export type * from './kinds.ts';

export interface Practice {
  readonly id: string;
  readonly name: string;
  /** Side of the road. */
  readonly drives: Fact<'left' | 'right'>;
  readonly viewing: Viewing;
  readonly junction: JunctionPractice;
  readonly pedestrian: PedestrianPractice;
  readonly zebra: ZebraPractice;
  readonly pelican: PelicanPractice;
  readonly crossing: CrossingPractice;
  readonly levelCrossing: LevelCrossingPractice;
  readonly shuttle: ShuttlePractice;
  readonly railway: RailwayPractice;
  readonly lamps: LampPractice;
}
