/** What the country and era of a layout say of an offer. */
import type { Finding } from '../../shared/findings/finding.ts';
import type { Offer, Wish } from '../../shared/layout/new-site/offers.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { practiceOf } from '../../shared/practice/custom/custom.ts';
import { missingFinding, type PracticeKind } from '../../shared/practice/missing.ts';

const KINDS: Partial<Record<Offer['kind'], PracticeKind>> = {
  zebra: 'zebra',
  pelican: 'pelican',
  crossing: 'crossing',
  'level-crossing': 'levelCrossing',
  shuttle: 'shuttle',
  'colour-light': 'railway',
};

/** Warned of, not refused. Null: it was there. */
export function notThere(layout: Layout, { kind }: Offer): Finding | null {
  const { practice } = practiceOf(layout);
  const asked = KINDS[kind];
  return practice && asked ? missingFinding(practice, asked, '') : null;
}

/** A wish as the layout's country and era would have it. */
export function wishFor(layout: Layout, name: string, board: string): Wish {
  const { practice } = practiceOf(layout);
  return { name, board, levelCrossingAmber: practice?.levelCrossing.amber !== null };
}
