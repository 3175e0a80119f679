/** The layout that a new user opens first. */

import penmarrow from '../../../shared/layout/examples/penmarrow.json' with { type: 'json' };
import { readLayout } from '../../../shared/layout/parse.ts';
import { writeLayout } from '../../../shared/layout/write.ts';

const { layout } = readLayout(penmarrow);

export const EXAMPLE = {
  name: 'penmarrow.json',
  text: layout ? writeLayout(layout) : JSON.stringify(penmarrow, null, 2),
};
