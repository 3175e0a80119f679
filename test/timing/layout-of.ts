import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';

/** A whole layout from its boards and sites; throws where that is none. */
export function layoutOf(parts: Pick<Layout, 'boards' | 'sites'>): Layout {
  const text = JSON.stringify({
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow and beyond',
    scale: 'OO',
    practice: 'uk-today',
    ...parts,
  });
  const { layout, findings } = parseLayout(text);
  if (!layout) throw new Error(findings.map(({ path, what }) => `${path}: ${what}`).join('\n'));
  return layout;
}
