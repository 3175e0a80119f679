/** Intergreens of the United Kingdom. Any one unit of time. */

interface Parts {
  readonly amber: number;
  /** Default: 0. */
  readonly allRed?: number;
  readonly redWithAmber: number;
}

/**
 * From the end of one phase's green to the start of the next conflicting one's
 * (Traffic Advisory Leaflet 1/06): amber, then all red, then red with amber.
 */
export function intergreen({ amber, allRed = 0, redWithAmber }: Parts): number {
  return amber + allRed + redWithAmber;
}

/** What of an intergreen is all red; null when amber and red with amber do not fit into it. */
export function allRedOf(wanted: number, { amber, redWithAmber }: Parts): number | null {
  const rest = wanted - amber - redWithAmber;
  return rest < 0 ? null : rest;
}
