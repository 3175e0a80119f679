import { JUNCTION_RECIPES } from './junction-offers.ts';
import { LAMP_RECIPES } from './lamp-offers.ts';
import { type Offer, offerOf } from './offer.ts';
import { ROAD_RECIPES } from './road-offers.ts';

export type { Added, Offer, Wish } from './offer.ts';

/** Everything that a new site can be, in the order in which it is offered. */
export const OFFERS: readonly Offer[] = [...JUNCTION_RECIPES, ...ROAD_RECIPES, ...LAMP_RECIPES].map(offerOf);

export function offerById(id: string): Offer | null {
  return OFFERS.find((offer) => offer.id === id) ?? null;
}
