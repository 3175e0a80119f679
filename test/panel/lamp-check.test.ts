/**
 * A lamp check of forty lamps in a real browser on the real host: three exchanged pairs and a dead lamp in the wires of
 * the virtual layout, answers read from what that really shows, an interruption, the re-plan, a second check, and the
 * record in the document, in the log and on the printed sheet.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { pdfText } from '../fixtures/pdf-text.ts';
import { fortyLamps } from './forty-lamps.ts';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

// Two emulated boards, a browser and a build: on a busy machine that takes its time.
const LONG = 600_000;

let rig: Rig;
afterEach(() => rig.close());

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });

async function openForty(page: Page): Promise<void> {
  await boardSays(page, 'runs this layout, kept');
  const file = join(rig.folder, 'forty.json');
  writeFileSync(file, writeLayout(fortyLamps()));
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('o');
  await (await chooser).setFiles(file);
  await page.getByRole('heading', { name: 'Penmarrow Forty' }).waitFor();
  await page.keyboard.press('c');
  await button(page, 'Connect Virtual board').click();
  await boardSays(page, 'runs nothing');
  await page.keyboard.press('Escape');
  await send(page);
}

async function send(page: Page): Promise<void> {
  await page.keyboard.press('Shift+S');
  await boardSays(page, 'runs this layout, not kept');
}

/** By the numbers of the lamps on the board. */
async function setFault(page: Page, kind: string, lamp: number, other?: number): Promise<void> {
  await page.getByLabel('Fault', { exact: true }).selectOption(kind);
  await page.getByLabel('Lamp', { exact: true }).selectOption(String(lamp));
  if (other !== undefined) await page.getByLabel('with', { exact: true }).selectOption(String(other));
  await button(page, 'Set this fault').click();
}

/** From now on the page remembers what lit on the layout while which lamp or output was asked for, however short it was. */
function watch(page: Page): Promise<void> {
  return page.evaluate(() => {
    const seen: Record<string, string[]> = {};
    const glance = (): void => {
      const asked =
        document.querySelector('.check-asking')?.getAttribute('data-lamp') ??
        document.querySelector('.check-pointing[data-output]')?.getAttribute('data-output');
      if (!asked) return;
      const lit = [...document.querySelectorAll('.glow-lamp:not([data-glow="dark"])')];
      const lamps = [...new Set(lit.map((it) => it.getAttribute('data-seen')?.split(' ')[0]))].join();
      seen[asked] ??= [];
      if (lamps !== '' && seen[asked].at(-1) !== lamps) seen[asked].push(lamps);
    };
    new MutationObserver(glance).observe(document.body, { subtree: true, childList: true, attributes: true });
    Object.assign(window, { seen });
  });
}

/** What lights for the lamp that is asked for; empty when nothing does in the time of several flashes. */
function look(page: Page, asked: number, before: readonly number[]): Promise<number[]> {
  return page.evaluate(
    async ([lamp, old]) => {
      const { seen } = window as unknown as { seen: Record<string, string[]> };
      for (const until = performance.now() + 3500; performance.now() < until; ) {
        // What lit for the lamp before may still have been going out.
        const lit = seen[lamp]?.find((lamps) => lamps !== old.join());
        if (lit !== undefined) return lit.split(',').map(Number);
        await new Promise((go) => setTimeout(go, 10));
      }
      return [];
    },
    [asked, before] as const,
  );
}

/** Answers by keyboard what the layout really shows, until `most` answers or the end; the lamps that were not right. */
async function walk(page: Page, most = 99): Promise<{ lamp: number; seen: number[] }[]> {
  const found: { lamp: number; seen: number[] }[] = [];
  const asking = page.locator('.check-asking');
  let before: number[] = [];
  await asking.waitFor();
  await watch(page);
  for (let count = 0; count < most; count++) {
    const lamp = Number(await asking.getAttribute('data-lamp'));
    const seen = await look(page, lamp, before);
    before = seen;
    if (seen.length === 0) await page.keyboard.press('2');
    else if (seen.length === 1 && seen[0] === lamp) await page.keyboard.press('1');
    else {
      await page.keyboard.press('3');
      await page.locator('.check-pointing').waitFor();
      await looksRight(page);
      const wanted = page.locator(`.lamp-key[data-point="${seen[0]}"]`);
      await wanted.focus();
      await page.keyboard.press('Enter');
    }
    if (seen.length !== 1 || seen[0] !== lamp) found.push({ lamp, seen });
    // The next lamp, or the end.
    await page.locator(`.check-asking:not([data-lamp="${lamp}"]), .check-summary`).first().waitFor();
    if (await page.locator('.check-summary').isVisible()) break;
  }
  return found;
}

/** Nothing under 14 px in words, no key under 44 px, and nothing to be scrolled to sideways. */
async function looksRight(page: Page): Promise<void> {
  const wrong = await page.evaluate(() => {
    const sheet = document.querySelector('.sheet');
    const small = [...(sheet?.querySelectorAll('*') ?? [])].filter((it) => {
      const hasText = [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      const isWord =
        hasText && it.getClientRects().length > 0 && !(it instanceof SVGElement) && it.tagName !== 'OPTION';
      return isWord && Number.parseFloat(getComputedStyle(it).fontSize) < 13.95;
    });
    const keys = [...(sheet?.querySelectorAll('button, select, .field') ?? [])].filter((it) => {
      const { width, height } = it.getBoundingClientRect();
      return it.getClientRects().length > 0 && Math.min(width, height) < 43.9;
    });
    const across = sheet ? sheet.scrollWidth - sheet.clientWidth : -1;
    return { texts: [...small, ...keys].map((it) => it.textContent), across };
  });
  expect(wrong).toEqual({ texts: [], across: 0 });
}

async function download(page: Page, act: () => Promise<unknown>): Promise<string> {
  const coming = page.waitForEvent('download');
  await act();
  return readFileSync(await (await coming).path(), 'utf8');
}

test(
  'forty lamps, three exchanged pairs and a dead one: found, put right, checked again, mended, and on the sheet',
  async () => {
    rig = await openRig();
    const { page } = rig;
    await openForty(page);

    await page.keyboard.press('q');
    await setFault(page, 'swapped', 0, 3);
    await setFault(page, 'swapped', 14, 22);
    await setFault(page, 'swapped', 24, 38);
    await setFault(page, 'open', 9);
    await page.getByText('4 faults are set.').waitFor();
    await page.keyboard.press('Escape');

    await page.keyboard.press('i');
    await page.getByLabel('Who looks').fill('Morwenna Pascoe');
    await button(page, 'Check 40 lamps').click();
    await page.getByText('lit in short flashes, one a second').waitFor();
    await looksRight(page);
    expect(await walk(page, 15)).toEqual([
      { lamp: 0, seen: [3] },
      { lamp: 3, seen: [0] },
      { lamp: 9, seen: [] },
      { lamp: 14, seen: [22] },
    ]);

    // Somebody loads the page anew in the middle of it.
    await page.reload();
    await page.getByRole('heading', { name: 'Penmarrow Forty' }).waitFor();
    await page.keyboard.press('i');
    await page.getByText(/^Left before its end: .*Morwenna Pascoe. So far 11 right, 1 dark, 3 wrong\.$/).waitFor();
    await button(page, 'Go on where it was left').click();
    await page.getByText('16 of 40').waitFor();
    expect(await walk(page)).toEqual([
      { lamp: 22, seen: [14] },
      { lamp: 24, seen: [38] },
      { lamp: 38, seen: [24] },
    ]);
    await page.getByText('Main board: 33 right, 1 dark, 6 wrong.').waitFor();
    expect(await page.locator('.check-swap').count()).toBe(3);
    await looksRight(page);

    // The plan is put right, not the wires.
    await button(page, 'Put it right in the plan').click();
    await page.getByText('Main board does not run this plan yet.').waitFor();
    expect(await page.locator('.check-swap').count()).toBe(0);
    await page.locator('.check-summary').getByRole('button', { name: 'Send', exact: true }).click();
    await boardSays(page, 'runs this layout, not kept');
    await button(page, 'Check the 7 that are not right yet').click();
    expect(await walk(page)).toEqual([{ lamp: 9, seen: [] }]);
    await page.getByText('Main board: 39 right, 1 dark.').waitFor();
    await page.getByText(/stays dark\.$/).waitFor();

    // With the soldering iron.
    await page.keyboard.press('Escape');
    await page.keyboard.press('q');
    await page.getByText('One fault is set.').waitFor();
    await button(page, 'Mend all').click();
    await page.keyboard.press('Escape');
    await page.keyboard.press('i');
    await page.getByLabel('What is not right yet, or has another output now: 1').check();
    await button(page, 'Check one lamp').click();
    expect(await walk(page)).toEqual([]);
    await page.getByText('All 40 lamps of Main board are right.').waitFor();
    await page.keyboard.press('Escape');

    // Wires that were exchanged and forgotten: the outputs are lit, and the lamps that flash are pointed at.
    await page.keyboard.press('q');
    await setFault(page, 'swapped', 1, 2);
    await page.getByText('One fault is set.').waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Shift+I');
    await button(page, /^Light \d+ outputs/).click();
    await page.getByText('D2 flashes').waitFor();
    await looksRight(page);
    await watch(page);
    let flashed: number[] = [];
    for (const [output, lamp] of [
      [2, 3],
      [3, 2],
      [4, 1],
    ] as const) {
      await page.getByText(`D${output} flashes`).waitFor();
      flashed = await look(page, output, flashed);
      expect(flashed).toEqual([lamp]);
      await page.locator(`.lamp-key[data-point="${lamp}"]`).click();
    }
    await page.getByText('D5 flashes').waitFor();
    await button(page, 'That is enough').click();
    await page.getByText('3 of 40 lamps of Main board were seen.').waitFor();
    await button(page, 'Write this into the plan').click();
    await happened(page, /^Found the wires of 3 lamps on Main board, 2 of them at another output than planned\.$/);

    // The record: in the document,
    const text = await download(page, async () => {
      await page.keyboard.press('Control+s');
      await button(page, 'Save a copy').click();
    });
    const { layout } = parseLayout(text);
    const record = layout?.checks?.[0];
    expect(record).toMatchObject({ board: 'main', by: 'Morwenna Pascoe', ended: expect.any(String) });
    expect(record?.lamps.map(({ result }) => result)).toEqual(Array.from({ length: 40 }, () => 'right'));
    const [market] = layout?.sites ?? [];
    if (market?.kind !== 'junction') throw new Error('no junction');
    expect(market.phases.map(({ lamps }) => lamps?.red?.pin)).toEqual(['D5', 'D2']);
    expect([market.phases[0]?.lamps?.amber?.pin, market.phases[0]?.lamps?.green?.pin]).toEqual(['D4', 'D3']);

    // in the log,
    const log = (await download(page, () => page.keyboard.press('l')))
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { kind: string; text: string });
    const checks = log.filter(({ kind }) => kind === 'check').map((entry) => entry.text);
    expect(checks.filter((line) => line.startsWith('Checked ')).length).toBe(40 + 7 + 1);
    expect(checks).toContain('Finished the lamp check of Main board: 33 right, 1 dark, 6 wrong.');
    expect(checks).toContain('Finished the lamp check of Main board: 1 right.');

    // and on the sheet that is printed.
    await page.keyboard.press('Shift+U');
    const html = await download(page, () => button(page, 'Save as HTML').click());
    const paper = await page.context().newPage();
    await paper.setContent(html);
    const printed = pdfText(await paper.pdf({ preferCSSPageSize: true }));
    expect(printed).toContain('40 of 40 lamps right');
    expect(printed).toContain('Morwenna Pascoe');
    await happened(page, /./);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
