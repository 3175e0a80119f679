/** A whole evening without a pointer: from the first start to a kept time, always seeing where the keyboard is. */
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { openRig, type Rig } from '../panel/rig.ts';
import { Person } from './person.ts';

const LONG = 400_000;

let rig: Rig;
afterEach(() => rig.close());

/** Anything that a pointer does is noted in the page; clicks that keys make have no pointer. */
function notePointers(page: Page): Promise<unknown> {
  return page.addInitScript(() => {
    const seen: string[] = [];
    Object.assign(window, { pointers: seen });
    for (const type of ['pointerdown', 'mousedown', 'wheel', 'touchstart'])
      addEventListener(type, () => seen.push(type), { capture: true });
  });
}

/** What has the keyboard, and whether a person can see that. */
async function focused(page: Page): Promise<{ id: string; name: string; isSeen: boolean }> {
  return page.evaluate(() => {
    const it = document.activeElement as HTMLElement | null;
    const box = it?.getBoundingClientRect();
    const style = it ? getComputedStyle(it) : null;
    const isOn = box !== undefined && box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0;
    const inner = it ? [it, ...it.querySelectorAll('*')] : [];
    const isMarked = inner.some((part) => {
      const { outlineStyle, outlineWidth, stroke, strokeWidth } = getComputedStyle(part);
      if (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) return true;
      return part instanceof SVGElement && stroke !== 'none' && Number.parseFloat(strokeWidth) > 0;
    });
    return {
      id: it?.id ?? '',
      name: it?.getAttribute('aria-label') ?? it?.textContent?.slice(0, 60) ?? '',
      isSeen: isOn && style?.visibility !== 'hidden' && isMarked,
    };
  });
}

/** By the tabulator to something; each stop on the way can be seen. */
async function tabTo(person: Person, wanted: (at: { id: string; name: string }) => boolean): Promise<void> {
  for (let turn = 0; turn < 80; turn++) {
    await person.presses('Tab');
    const at = await focused(person.page);
    if (at.name === '' && at.id === '') continue;
    expect(at.isSeen, `nobody sees that the keyboard is at "${at.name || at.id}"`).toBe(true);
    if (wanted(at)) return;
  }
  throw new Error('the tabulator never came there');
}

test(
  'by keys alone: a layout of one’s own, its first time changed and kept, the power cut, another site, undo',
  async () => {
    rig = await openRig({ welcomed: false, prepare: notePointers });
    const { page } = rig;
    const person = new Person(page);
    await page.getByRole('button', { name: 'Begin with Penmarrow' }).and(page.locator(':focus')).waitFor();
    await person.presses('Tab', 'Enter');
    for (const title of ['Which scale?', 'Which country and era?', 'Which board?']) {
      await page.getByRole('radiogroup', { name: title }).locator(':focus').waitFor();
      await person.presses('Enter');
    }
    await page.getByRole('radio', { name: 'A crossroads', exact: true }).and(page.locator(':focus')).waitFor();
    await person.presses('Enter');
    await person.seesBoard('runs this layout, kept');
    await person.seesLampsGlow();

    await tabTo(person, ({ id }) => id.startsWith('dial-green'));
    const { id } = await focused(page);
    const dial = id.replace('dial-', '');
    const before = await person.dial(dial).inputValue();
    await person.presses('ArrowUp');
    await expect.poll(() => person.dial(dial).inputValue(), { timeout: 60_000 }).not.toBe(before);
    await person.types('23');
    await person.presses('Enter');
    await person.seesTime(dial, '23.0 s');
    await person.reads(/ to 23\.0 s/);
    // Letters are commands at a dial, too.
    await person.presses('k');
    await person.reads(/^Kept on /);
    await person.presses('w');
    await person.seesBoard('switched off');
    await person.presses('w');
    await person.seesBoard('runs this layout, other times, kept');
    await person.seesTime(dial, '23.0 s');

    // Found by a few letters, done, and undone.
    await person.presses('Control+k');
    await page.locator('[role="combobox"]:focus').waitFor();
    await person.types('copy this site');
    await person.presses('Enter');
    await person.reads(/^Copied /);
    await person.presses('Control+z');
    await person.reads(/^Undid: Copied /);
    await tabTo(person, ({ name }) => /^Keep/.test(name));
    expect(await page.evaluate(() => (window as unknown as { pointers: string[] }).pointers)).toEqual([]);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
