import { expect, test } from 'vitest';
import { dialOfPath, findingsOfDial, findingsOfSite } from '../../renderer/findings/places.ts';
import { readDocument } from '../../renderer/model/document.ts';
import { PENMARROW } from './example.ts';

function open(change: (layout: { [key: string]: unknown; sites: { [key: string]: unknown }[] }) => void) {
  const document = JSON.parse(PENMARROW);
  change(document);
  return readDocument({ name: 'test.json', text: JSON.stringify(document), version: 1 });
}

test('a finding is shown at its site and at its dial', () => {
  const { findings, layout } = open((town) => {
    town.practice = 'uk-today';
    if (town.sites[0]) town.sites[0].amber = 3.5;
  });
  expect(findings.map(({ path, severity }) => [path, severity])).toEqual([['sites[0].amber', 'warning']]);
  expect(findingsOfSite(findings, 1)).toEqual([]);
  expect(findingsOfDial(findings, layout, 0, 'amber').map(({ path }) => path)).toEqual(['sites[0].amber']);
  expect(findingsOfDial(findings, layout, 0, 'all-red')).toEqual([]);
});

test('site 1 is not site 10', () => {
  const finding = { severity: 'note', code: 'x', path: 'sites[10].name', what: '', why: '', cure: '' } as const;
  expect(findingsOfSite([finding], 1)).toEqual([]);
  expect(findingsOfSite([finding], 10)).toEqual([finding]);
});

test('paths of the layout name the dials that the compiler makes of them', () => {
  const { layout, sites } = open(() => {});
  if (!layout) throw new Error('no layout');
  expect(dialOfPath(layout, 'sites[0].stages[1].green')).toBe('green-2');
  expect(dialOfPath(layout, 'sites[0].redWithAmber')).toBe('red-with-amber');
  expect(dialOfPath(layout, 'sites[2].on')).toBe('flash-on');
  expect(dialOfPath(layout, 'sites[0].name')).toBe(null);
  const ids = sites.flatMap(({ names }) => names.dials.map(({ id }) => id));
  expect(ids).toEqual(expect.arrayContaining(['green-2', 'red-with-amber', 'flash-on']));
});

test('a file that is no layout gives findings and no sites', () => {
  const broken = readDocument({ name: 'broken.json', text: '{ "name": ', version: 1 });
  expect(broken.layout).toBe(null);
  expect(broken.sites).toEqual([]);
  expect(broken.findings).toHaveLength(1);
});
