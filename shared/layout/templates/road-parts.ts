/** Parts that the templates of crossings and shuttles share. */
import type { FigureLamps, VehicleLamps } from '../kinds/road-heads.ts';
import type { Input, Lamp, Pin } from '../outputs.ts';
import type { Place } from '../places.ts';

/** What a person says of a new site. */
export interface NewSite {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  readonly place?: Place;
}

/** Red, amber, green; outputs that are missing are left out, and the compiler says so. */
export function vehicleLamps(outputs: readonly Lamp[]): VehicleLamps {
  const [red, amber, green] = outputs;
  return { ...(red && { red }), ...(amber && { amber }), ...(green && { green }) };
}

/** Red, green. */
export function figureLamps(outputs: readonly Lamp[]): FigureLamps {
  const [red, green] = outputs;
  return { ...(red && { red }), ...(green && { green }) };
}

export function siteOf({ id, name, board, place }: NewSite) {
  return { id, name, board, ...(place && { place }) };
}

/** A push button to ground; `wait` is the output of its WAIT lamp. */
export function makeButton(button: {
  readonly id: string;
  readonly name: string;
  readonly board: string;
  readonly pin: Pin;
  readonly wait?: Lamp;
}): Input {
  const { id, name, board, pin, wait } = button;
  return { id, name, board, pin, ...(wait && { indicator: wait }) };
}

/** A detector that pulls its pin low while it sees something. */
export function makeDetector(detector: {
  readonly id: string;
  readonly name: string;
  readonly board: string;
  readonly pin: Pin;
}): Input {
  const { id, name, board, pin } = detector;
  // Track contacts and reed switches chatter longer than buttons.
  return { id, name, board, pin, debounce: 0.05 };
}
