/** New sites, the larger board and taking away, as a person at the panel does it. */
import { signal } from '@preact/signals';
import { expect, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import type { Surface } from '../../renderer/model/surface.ts';
import { addSite, boardFor, takeLarger } from '../../renderer/new-site/add.ts';
import { notThere } from '../../renderer/new-site/rules.ts';
import { OFFERS, type Offer, offerById } from '../../shared/layout/new-site/offers.ts';
import { openBench, PENMARROW, twoBoards } from './example.ts';

const surface = {} as Surface;

function offer(id: string): Offer {
  const found = offerById(id);
  if (!found) throw new Error(`no offer ${id}`);
  return found;
}

test('a new site is at hand, in the log, and gone again with undo', async () => {
  const { model } = await openBench();
  expect(await addSite(model, offer('zebra'), 'Station Crossing', 'town')).toEqual([]);
  expect(model.siteAtHand.value?.names.name).toBe('Station Crossing');
  expect(model.log.value.at(-1)).toMatchObject({ kind: 'document', text: 'Added Station Crossing (zebra crossing).' });
  expect(model.open.value.findings).toEqual([]);
  await model.history.undo();
  expect(model.open.value.sites.map(({ id }) => id)).toEqual(['market-cross', 'chapel-corner', 'harbour-crossing']);
});

test('where outputs are short nothing is added; on a larger board it fits', async () => {
  const { model } = await openBench();
  const pelican = offer('pelican');
  expect((await addSite(model, pelican, 'Quay pelican', 'town'))?.map(({ code }) => code)).toEqual(['too-few-outputs']);
  expect(model.history.canUndo.value).toBe(false);
  await takeLarger(model, 'town');
  expect(model.log.value.at(-1)?.text).toBe('Took a board with an ATmega2560 for Town board.');
  expect(await addSite(model, pelican, 'Quay pelican', 'town')).toEqual([]);
  // Penmarrow is in 1965: warned of, not refused.
  expect(model.open.value.findings.map(({ code, severity }) => [code, severity])).toEqual([
    ['not-in-practice', 'warning'],
  ]);
});

test('of two boards the first on which it fits is proposed', async () => {
  const { model } = await openBench(twoBoards());
  expect([boardFor(model, offer('zebra')), boardFor(model, offer('crossroads-foot'))]).toEqual(['town', 'harbour']);
});

test('cards of what the country and era did not have say so', async () => {
  const { model } = await openBench();
  const { layout } = model.open.value;
  if (!layout) throw new Error('no layout');
  const missing = OFFERS.filter((it) => notThere(layout, it) !== null).map(({ id }) => id);
  expect(missing).toEqual(['pelican', 'crossing']);
  const today = { ...layout, practice: 'uk-today' };
  expect(OFFERS.filter((it) => notThere(today, it) !== null).map(({ id }) => id)).toEqual([]);
});

test('the site at hand is taken away; the last one stays', async () => {
  const bench = await openBench();
  const { model } = bench;
  const takeAway = commandById('take-away');
  for (const left of [2, 1]) {
    await takeAway.run(model, surface);
    expect(model.open.value.sites).toHaveLength(left);
  }
  expect(takeAway.when(model)).toBe(false);
  expect(model.log.value.slice(-2).map(({ text }) => text)).toEqual([
    'Took Market Cross away.',
    'Took Chapel Corner away.',
  ]);
});

test('a copy of the layout is handed over as it is open, under its name', async () => {
  const { model } = await openBench();
  const saved: [string, string][] = [];
  const files = {
    sheet: signal(null),
    saveFile: (name: string, text: string) => saved.push([name, text]),
  } as unknown as Surface;
  await commandById('save-copy').run(model, files);
  expect(saved).toEqual([['penmarrow.json', PENMARROW]]);
});

test('an input that is held down is remembered until the board runs something else', async () => {
  const { model, host } = await openBench();
  const board = model.board('town');
  board.holdDown(3, true);
  board.holdDown(4, true);
  board.holdDown(4, false);
  expect([...board.down.value]).toEqual([3]);
  await host.call('power', { board: 'town', on: false });
  expect([...board.down.value]).toEqual([]);
});
