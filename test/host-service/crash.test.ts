/** A host that starts where another one was killed. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { LayoutCopy } from '../../electron/host/book/layout-copy.ts';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { places } from './places.ts';
import { rig } from './rig.ts';

const CHANGED = JSON.stringify({ ...JSON.parse(EXAMPLE.text), name: 'Penmarrow by the sea' });

function copy(): LayoutCopy {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-crash-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  return new LayoutCopy(join(folder, 'layouts'));
}

it('opens what was open when the other one was killed', async () => {
  const layouts = copy();
  const killed = rig(undefined, { layouts });
  await killed.host.start();
  await killed.call('changeText', { text: CHANGED, what: 'Gave the layout another name.' });
  const next = rig(undefined, { layouts });
  await next.host.start();
  const scene = await next.call('look', {});
  expect(scene).toMatchObject({ ok: true, value: { document: { name: 'penmarrow.json', text: CHANGED } } });
  expect(next.logged()).toContain('Opened penmarrow.json as it was when Amberwick ended without being closed.');
});

it('opens what was open when the other one was closed, with what was not saved yet', async () => {
  const layouts = copy();
  const closed = rig(undefined, { layouts });
  await closed.host.start();
  await closed.call('changeText', { text: CHANGED, what: 'Gave the layout another name.' });
  await closed.host.close();
  const next = rig(undefined, { layouts });
  await next.host.start();
  const scene = await next.call('look', {});
  expect(scene).toMatchObject({
    ok: true,
    value: { document: { text: CHANGED, file: { folder: null, unsaved: true, recovered: false } } },
  });
  expect(next.logged()).toContain('Opened penmarrow.json with the changes that were not saved yet.');
});

it('says what it recovered, and can go back to what was opened first', async () => {
  const layouts = copy();
  const killed = rig(undefined, { layouts });
  await killed.host.start();
  await killed.call('changeText', { text: CHANGED, what: 'Gave the layout another name.' });
  const next = rig(undefined, { layouts, files: places() });
  await next.host.start();
  expect(await next.call('look', {})).toMatchObject({
    value: { document: { file: { unsaved: true, recovered: true } } },
  });
  expect(await next.call('readSaved', {})).toEqual({ ok: true, value: { text: EXAMPLE.text } });
  const back = await next.call('changeText', { text: EXAMPLE.text, what: 'Went back to what was saved.' });
  expect(back).toMatchObject({ value: { file: { unsaved: false } } });
});

it('opens the example where nothing was open before, and where the copy is no layout', async () => {
  const layouts = copy();
  const first = rig(undefined, { layouts });
  await first.host.start();
  expect(first.logged()).toContain('Opened penmarrow.json.');
  layouts.note({ name: 'broken.json', text: '{"format":' });
  const next = rig(undefined, { layouts });
  await next.host.start();
  expect(await next.call('look', {})).toMatchObject({ ok: true, value: { document: { text: EXAMPLE.text } } });
});
