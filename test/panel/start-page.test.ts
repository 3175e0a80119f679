/**
 * A person's own layout in a real browser: from the first start to glowing lamps by mouse and by keyboard, saved,
 * changed, opened again, dropped on the window, and all of it undone.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { PENMARROW } from './example.ts';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

// An emulated board, a browser and a build: on a busy machine that takes its time.
const LONG = 400_000;

let rig: Rig;
afterEach(() => rig.close());

const layoutFile = (name: string): string => join(rig.folder, 'data', 'Layouts', name);
const heading = (page: Page, name: string) => page.getByRole('heading', { name, exact: true, level: 1 });

async function lampsGlow(page: Page): Promise<void> {
  await boardSays(page, 'runs this layout, kept');
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
}

test(
  'by mouse: a street in another country, in seven actions; copied, kept as a template and added again',
  async () => {
    rig = await openRig({ welcomed: false });
    const { page } = rig;
    let actions = 0;
    const click = async (name: string, role: 'button' | 'radio' = 'button'): Promise<void> => {
      actions += 1;
      await page.getByRole(role, { name, exact: true }).click();
    };
    await click('Make a layout of your own');
    await click('HO, 1:87.1', 'radio');
    await click('Germany, today', 'radio');
    await click('Board with an ATmega2560', 'radio');
    await click('A street', 'radio');
    await click('Build it and light the lamps');
    await lampsGlow(page);
    expect(actions).toBeLessThanOrEqual(20);
    await heading(page, 'My layout').waitFor();
    expect(await page.locator('.plan .site').count()).toBe(2);
    await page.getByText('not saved', { exact: true }).waitFor();

    await page.getByRole('button', { name: 'Desk', exact: true }).click();
    await click('Copy this site');
    await happened(page, /^Copied .+ as .+ 2\.$/);
    await click('Make this site a template');
    await happened(page, /^Kept the template .+ 2\.$/);
    await click('New site');
    await page.getByRole('region', { name: 'Your templates' }).getByRole('button').first().click();
    await happened(page, /^Added .+ \(template\)\.$/);
    await expect.poll(() => page.locator('.plan .site').count(), { timeout: 30_000 }).toBe(4);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'by keyboard only: from the first start to glowing lamps, saved, changed, gone back, another opened, and undone',
  async () => {
    rig = await openRig({ welcomed: false });
    const { page } = rig;
    const keys = page.keyboard;
    let actions = 0;
    const press = async (key: string): Promise<void> => {
      actions += 1;
      await keys.press(key);
    };
    await page.getByRole('button', { name: 'Begin with Penmarrow' }).waitFor();
    await press('Tab');
    await press('Enter');
    for (const title of ['Which scale?', 'Which country and era?', 'Which board?']) {
      await page.getByRole('radiogroup', { name: title }).waitFor();
      await page.locator('[role="radio"]:focus').waitFor();
      await press('Enter');
    }
    await page.getByRole('radio', { name: 'A crossroads', exact: true }).and(page.locator(':focus')).waitFor();
    await press('ArrowRight');
    await press('Enter');
    await lampsGlow(page);
    expect(actions).toBe(7);
    expect(await page.locator('.plan .site').count()).toBe(1);

    // Saved under the name that is offered; the file is on the disk.
    await keys.press('Control+s');
    await page.getByLabel('Name of the file').waitFor();
    await keys.type('Station yard');
    await keys.press('Enter');
    await happened(page, /^Saved Station yard\.amberwick\.$/);
    expect(JSON.parse(readFileSync(layoutFile('Station yard.amberwick'), 'utf8'))).toMatchObject({
      $schema: 'urn:amberwick:layout:1',
      sites: [{ kind: 'junction' }],
    });
    await expect.poll(() => page.locator('.file-state').count(), { timeout: 30_000 }).toBe(0);

    // A change is not saved; something else writes to the file meanwhile.
    await keys.press('Control+d');
    await happened(page, /^Copied /);
    await page.getByText('not saved', { exact: true }).waitFor();
    writeFileSync(layoutFile('Station yard.amberwick'), PENMARROW);
    await keys.press('Control+s');
    await page.getByRole('alert').getByText('was changed by something else', { exact: false }).waitFor();
    expect(readFileSync(layoutFile('Station yard.amberwick'), 'utf8')).toBe(PENMARROW);
    await page.getByRole('button', { name: 'Save over it' }).focus();
    await keys.press('Enter');
    await happened(page, /^Saved Station yard\.amberwick\.$/);
    expect(readFileSync(layoutFile('Station yard.amberwick.bak'), 'utf8')).toBe(PENMARROW);

    // Another one from the folder, and back by undo, with what was open.
    writeFileSync(layoutFile('penmarrow.json'), PENMARROW);
    await keys.press('Control+o');
    const other = page.getByRole('button', { name: /^penmarrow\.json/ });
    await other.focus();
    await keys.press('Enter');
    await heading(page, 'Penmarrow').waitFor();
    await keys.press('Control+z');
    await happened(page, /^Put Station yard\.amberwick back\.$/);
    await expect.poll(() => page.locator('.plan .site').count(), { timeout: 30_000 }).toBe(2);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'files that are dropped: a layout opens, what is none says so and what is open stays; a site goes through the clipboard',
  async () => {
    rig = await openRig();
    const { page } = rig;
    await boardSays(page, 'runs this layout, kept');
    const drop = (name: string, type: string, text: string) =>
      page.evaluate(
        ([called, kind, content]) => {
          const data = new DataTransfer();
          data.items.add(new File([content ?? ''], called ?? '', { type: kind ?? '' }));
          for (const event of ['dragenter', 'dragover', 'drop']) {
            document.body.dispatchEvent(new DragEvent(event, { bubbles: true, cancelable: true, dataTransfer: data }));
          }
        },
        [name, type, text],
      );
    await drop('notes.txt', 'text/plain', 'Buy solder.');
    await page.getByText('notes.txt was not taken.').waitFor();
    await drop('broken.json', 'application/json', PENMARROW.slice(0, 400));
    await page.getByText('This file cannot be read as a layout.').waitFor();
    await heading(page, 'Penmarrow').waitFor();
    const newer = JSON.parse(PENMARROW);
    newer.version = 4;
    newer.name = 'Penmarrow to come';
    newer.sites[2].kind = 'tram-stop';
    await drop('later.amberwick', '', JSON.stringify(newer));
    await heading(page, 'Penmarrow to come').waitFor();
    expect(await page.locator('.plan .site').count()).toBe(2);
    await page.keyboard.press('3');
    await page.getByText('The file has version 4; this Amberwick knows versions up to 1.').waitFor();
    await page.getByText('sites[2] (Harbour Crossing) is left out.').waitFor();
    expect(existsSync(join(rig.folder, 'data', 'Layouts'))).toBe(false);

    // The site at hand goes through the clipboard as text.
    const pasted = await page.evaluate(() => {
      const data = new DataTransfer();
      for (const name of ['copy', 'paste']) {
        document.body.dispatchEvent(new ClipboardEvent(name, { bubbles: true, cancelable: true, clipboardData: data }));
      }
      return data.getData('text/plain');
    });
    expect(JSON.parse(pasted)).toMatchObject({ format: 'amberwick-site', site: { id: 'market-cross' } });
    await happened(page, /^Pasted Market Cross 2\.$/);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
