/** New layouts, files, copies and templates, as a person at the panel has them. */
import { signal } from '@preact/signals';
import { expect, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { pasteText } from '../../renderer/files/clipboard.ts';
import { kindOf } from '../../renderer/files/drop.ts';
import { inTheWay, saveAs, saveOver } from '../../renderer/files/saving.ts';
import type { Sheet, Surface } from '../../renderer/model/surface.ts';
import { addText, copyAtHand, siteText } from '../../renderer/new-site/copy.ts';
import { StartModel } from '../../renderer/start/start-model.ts';
import { openBench } from './example.ts';

function surfaceOf(): Surface & { readonly saved: [string, string][] } {
  const saved: [string, string][] = [];
  return {
    sheet: signal<Sheet>(null),
    under: signal<Sheet>(null),
    saved,
    saveFile: (name: string, content: string) => saved.push([name, content]),
  } as never;
}

const sites = (model: Awaited<ReturnType<typeof openBench>>['model']): string[] =>
  model.open.value.layout?.sites.map(({ name }) => name) ?? [];

test('a guided start opens a layout, sends it and keeps it on the virtual board; undo brings Penmarrow back', async () => {
  const { model, host } = await openBench();
  const start = new StartModel();
  for (let step = 0; step < 3; step++) start.on();
  expect(await start.make(model)).toBe(true);
  expect(model.open.value).toMatchObject({ file: 'My layout.amberwick', findings: [] });
  expect(sites(model)).toEqual(['Mill Lane crossroads']);
  expect(host.calls.map(({ name }) => name).slice(-4)).toEqual(['newLayout', 'connect', 'send', 'keep']);
  const board = model.boards.value[0];
  expect(board?.state.value).toMatchObject({ running: 'same', kept: 'same', virtual: true });
  expect(model.file.value).toEqual({ folder: null, unsaved: true, recovered: false });
  await model.history.undo();
  expect(sites(model)).toEqual(['Market Cross', 'Chapel Corner', 'Harbour Crossing']);
});

test('only what was there is offered, and what was chosen before is not taken over to a country without it', () => {
  const start = new StartModel();
  start.practice.value = 'uk-today';
  start.site.value = 'crossing';
  expect(start.starts.value.map(({ id }) => id)).toContain('crossing');
  start.practice.value = 'uk-1965';
  start.on();
  expect(start.starts.value.map(({ id }) => id)).not.toContain('crossing');
  expect(start.site.value).toBe('crossroads');
  for (let step = 0; step < 9; step++) start.back();
  expect(start.step.value).toBe('scale');
});

test('a real board is not told to keep; one that does not answer leaves the layout open, and it is said', async () => {
  const { model, host } = await openBench();
  const start = new StartModel();
  start.port.value = '/dev/ttyUSB0';
  expect(await start.make(model)).toBe(true);
  expect(host.calls.at(-1)?.name).toBe('send');
  host.plugged.set('/dev/ttyUSB0', 'bare');
  const again = new StartModel();
  again.port.value = '/dev/ttyUSB0';
  again.name.value = 'Quay Hill';
  expect(await again.make(model)).toBe(false);
  expect([again.progress.value, model.open.value.file]).toEqual(['failed', 'Quay Hill.amberwick']);
  expect(model.trouble.value?.problem.code).toBe('noAnswer');
});

test('saving asks for a name once, says what is in the way, and then has its file', async () => {
  const { model, host } = await openBench();
  const surface = surfaceOf();
  const save = () => commandById('save-layout').run(model, surface);
  await save();
  expect([surface.sheet.value, inTheWay.value]).toEqual(['save-as', null]);
  await saveAs(model, surface, 'a/b', false);
  expect([surface.sheet.value, inTheWay.value?.code]).toEqual(['save-as', 'badFileName']);
  await saveAs(model, surface, 'town', false);
  expect([surface.sheet.value, inTheWay.value, model.file.value?.folder]).toEqual([null, null, 'Layouts']);
  await commandById('take-away').run(model, surface);
  expect([model.file.value?.unsaved, model.open.value.file]).toEqual([true, 'town.amberwick']);
  host.refuseNext = { name: 'save', code: 'fileChanged', what: 'Changed.' };
  await save();
  expect([surface.sheet.value, inTheWay.value?.code]).toEqual(['save-as', 'fileChanged']);
  await saveOver(model, surface);
  expect([surface.sheet.value, model.file.value?.unsaved]).toEqual([null, false]);
  commandById('save-copy').run(model, surface);
  expect(surface.saved).toEqual([['town.amberwick', model.text.value]]);
  // A save changes neither the layout nor what can be undone.
  expect(model.history.undoWhat.value).toBe('took Market Cross away');
});

test('going back to what is saved is one step of undo', async () => {
  const { model } = await openBench();
  const surface = surfaceOf();
  const back = commandById('go-back-saved');
  expect(back.when(model)).toBe(false);
  await commandById('take-away').run(model, surface);
  expect(back.when(model)).toBe(true);
  await back.run(model, surface);
  expect([sites(model).length, model.file.value?.unsaved]).toEqual([3, false]);
  await model.history.undo();
  expect([sites(model).length, model.file.value?.unsaved]).toEqual([2, true]);
});

test('a site is copied beside itself, with its times, and undone by name', async () => {
  const { model } = await openBench();
  model.choose('harbour-crossing');
  await commandById('copy-site').run(model, surfaceOf());
  expect(sites(model)).toEqual(['Market Cross', 'Chapel Corner', 'Harbour Crossing', 'Harbour Crossing 2']);
  expect([model.siteAtHand.value?.names.name, model.open.value.findings]).toEqual(['Harbour Crossing 2', []]);
  expect(model.history.undoWhat.value).toBe('copied Harbour Crossing as Harbour Crossing 2');
  // The rest of the board has no room for a junction: it is said what is lacking, and nothing changes.
  model.choose('market-cross');
  expect((await copyAtHand(model)).map(({ code }) => code)).toEqual(['too-few-outputs']);
  await commandById('copy-site').run(model, surfaceOf());
  expect(model.trouble.value?.problem.what).toBe('Market Cross 2 needs 6 outputs; Town board has 2 free.');
  expect(sites(model)).toHaveLength(4);
});

test('a site goes to another layout as text, and as a template that is kept', async () => {
  const { model, host } = await openBench();
  model.choose('harbour-crossing');
  const text = siteText(model) ?? '';
  await commandById('keep-template').run(model, surfaceOf());
  expect(host.files.templates.map(({ name, kind }) => [name, kind])).toEqual([['Harbour Crossing', 'zebra']]);
  await new StartModel().make(model);
  expect(await pasteText(model, text)).toBe(true);
  expect(sites(model)).toEqual(['Mill Lane crossroads', 'Harbour Crossing']);
  const [template] = host.files.templates;
  const board = model.boards.value[0]?.id ?? '';
  expect(
    await addText(model, template?.text ?? '', {
      name: 'Station zebra',
      board,
      said: (name) => `Added ${name} (template).`,
    }),
  ).toEqual([]);
  expect(sites(model)).toEqual(['Mill Lane crossroads', 'Harbour Crossing', 'Station zebra']);
  expect(model.open.value.findings).toEqual([]);
  expect(await pasteText(model, '{"format":"amberwick-site"}')).toBe(false);
  expect(model.trouble.value?.problem.code).toBe('not-a-site');
});

test.each([
  ['town.amberwick', '', 'layout'],
  ['town.json', 'application/json', 'layout'],
  ['plan.PNG', '', 'picture'],
  ['plan', 'image/webp', 'picture'],
  ['plan.svg', 'image/svg+xml', null],
  ['notes.txt', 'text/plain', null],
] as const)('%s that is dropped is a %s %s', (name, type, kind) => {
  expect(kindOf({ name, type })).toBe(kind);
});
