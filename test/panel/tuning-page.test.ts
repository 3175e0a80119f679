/** An evening of tuning on the shipped firmware, in a real browser. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

let rig: Rig;

beforeAll(async () => {
  rig = await openRig();
  await boardSays(rig.page, 'runs this layout, kept');
  await rig.page.keyboard.press('2');
});
afterAll(() => rig?.close());

const GREEN = '#dial-green-1';
const time = (id = GREEN) => rig.page.locator(id).inputValue();
const shows = (text: string, id = GREEN) => expect.poll(() => time(id)).toBe(text);

async function type(text: string): Promise<void> {
  const { page } = rig;
  await page.locator(GREEN).fill(text);
  await page.keyboard.press('Enter');
}

/** So that single keys are commands again. */
async function leave(): Promise<void> {
  await rig.page.locator(GREEN).blur();
}

test('times are typed as people write them, and the board runs them', async () => {
  for (const [typed, shown] of [
    ['19', '19.0 s'],
    ['18.5 s', '18.5 s'],
    ['20,5', '20.5 s'],
    ['1:05', '1:05'],
    ['18', '18.0 s'],
  ] as const) {
    await type(typed);
    await shows(shown);
    await happened(rig.page, new RegExp(`Market Cross green of Fore Street from .* to ${shown.replace('.', '\\.')}`));
  }
});

test('what is no time, or beyond the limits, says so at the dial and changes nothing', async () => {
  const { page } = rig;
  for (const [typed, words] of [
    ['soon', 'This is no time. Write a time such as 18, 18.5 s or 1:05. It stays 18.0 s.'],
    ['1:75', 'After the colon come seconds, 00 to 59, such as 1:05. It stays 18.0 s.'],
    ['-3', 'A time is never below zero.'],
    ['2', 'That is shorter than its least, 7.0 s. It stays 18.0 s; its name leads to other limits.'],
    ['5:00', 'That is longer than its greatest, 4:15. It stays 18.0 s; its name leads to other limits.'],
  ] as const) {
    await type(typed);
    await page.locator('[data-dial="green-1"] [role="alert"]', { hasText: words }).waitFor();
    // What was typed is still there to be corrected.
    expect(await time()).toBe(typed);
    expect(await page.locator(GREEN).getAttribute('aria-invalid')).toBe('true');
    await page.keyboard.press('Escape');
    await shows('18.0 s');
  }
  await leave();
});

test('the wheel turns a dial on which the pointer has rested, and scrolls past all others', async () => {
  const { page } = rig;
  await page.mouse.move(10, 10);
  await page.locator('#dial-green-2').hover();
  await page.locator('#dial-green-2[data-wheel="true"]').waitFor();
  await page.mouse.wheel(0, -100);
  await shows('13.0 s', '#dial-green-2');
  await page.mouse.wheel(0, 100);
  await shows('12.0 s', '#dial-green-2');
  await page.mouse.move(10, 10);
  expect(await page.locator('#dial-green-2').getAttribute('data-wheel')).toBe('false');
});

test('A and B: noted, told apart, and switched between with one key while one watches', async () => {
  const { page } = rig;
  await page.keyboard.press('Shift+E');
  await page.getByRole('button', { name: 'Note as A' }).click();
  await page.keyboard.press('Escape');
  await type('24');
  await shows('24.0 s');
  await leave();
  await page.keyboard.press('Shift+E');
  await page.getByRole('button', { name: 'Note as B' }).click();
  await page.getByRole('row', { name: 'Market Cross: Green, Fore Street 18.0 s 24.0 s +6.0 s' }).waitFor();
  await page.keyboard.press('Escape');
  await page.keyboard.press('x');
  await shows('18.0 s');
  await happened(page, /^Switched to A of Market Cross on Town board: Market Cross green of Fore Street 18\.0 s\.$/);
  expect(await page.getByRole('button', { name: 'Run set A' }).getAttribute('aria-pressed')).toBe('true');
  await page.keyboard.press('x');
  await shows('24.0 s');
  await happened(page, /^Switched to B/);
  await page.keyboard.press('Control+z');
  await shows('18.0 s');
  await page.reload();
  await page.locator(GREEN).waitFor();
  await boardSays(page, 'runs this layout, kept');
  await page.keyboard.press('x');
  await shows('24.0 s');
});

test('what differs is one list, from which a time goes into the plan', async () => {
  const { page } = rig;
  await page.keyboard.press('e');
  await page
    .getByRole('row', { name: /Market Cross: Green, Fore Street 18\.0 s runs \+6\.0 s 24\.0 s 18\.0 s/ })
    .waitFor();
  await page.getByRole('button', { name: 'Take into the plan: Market Cross: Green, Fore Street' }).click();
  await happened(page, /^Took into the plan: Market Cross green of Fore Street 24\.0 s\.$/);
  // Kept is still another.
  await page.getByRole('row', { name: /Green, Fore Street 24\.0 s 24\.0 s 18\.0 s runs \+6\.0 s/ }).waitFor();
  await page.keyboard.press('Escape');
  await boardSays(page, 'runs this layout, not kept');
});

test('every change is listed, and any moment of the evening can be gone back to, and on again', async () => {
  const { page } = rig;
  await page.keyboard.press('j');
  await page.getByRole('button', { name: 'Go there: the times of the beginning' }).click();
  await happened(page, /^Went to the times of the beginning on Town board: /);
  await page.getByText('These run now.').first().waitFor();
  await page.keyboard.press('Escape');
  await shows('18.0 s');
  await page.keyboard.press('Control+z');
  await shows('24.0 s');
});

test('a limit is overridden with a reason that goes into the log; sending brings it, and the times stay', async () => {
  const { page } = rig;
  await page.getByRole('button', { name: /^Limits and more: Green, Fore Street/ }).click();
  await page.getByText('maximum green up to 255 s').first().waitFor();
  await page.getByRole('button', { name: 'Other limits: Green, Fore Street' }).click();
  await page.getByLabel('Greatest: Green, Fore Street').fill('5:00');
  await page.keyboard.press('Enter');
  await page.getByText('Write a reason. In five years somebody will ask.').waitFor();
  await page
    .getByLabel('Reason for other limits: Green, Fore Street')
    .fill('A long goods train stands across Fore Street');
  await page.keyboard.press('Enter');
  await happened(page, /^Set the limits of Market Cross green of Fore Street to 7\.0 s and 5:00: A long goods train/);
  await page.getByText('own limits').waitFor();
  // The board goes on, in hand, with the limits of before.
  await shows('24.0 s');
  await page.getByRole('button', { name: 'Send the limits' }).click();
  await page.getByRole('button', { name: 'Send the limits' }).waitFor({ state: 'detached' });
  await shows('24.0 s');
  await type('4:50');
  await shows('4:50');
  await leave();
  await page.keyboard.press('Control+z');
  await shows('24.0 s');
});

test('undo covers Keep: after the power was off the board runs what it kept before', async () => {
  const { page } = rig;
  await page.keyboard.press('k');
  await happened(page, /^Kept on Town board/);
  await type('26');
  await shows('26.0 s');
  await leave();
  await page.keyboard.press('k');
  await happened(page, /^Kept on Town board: Market Cross green of Fore Street 26\.0 s\.$/);
  await page.keyboard.press('Control+z');
  await happened(
    page,
    /^Kept on Town board what it kept before: Market Cross green of Fore Street 24\.0 s\. What runs stayed; the board stood still for [\d.]+ s, and its memory was written once more\.$/,
  );
  await shows('26.0 s');
  await boardSays(page, 'runs this layout, other times, not kept');
  await page.keyboard.press('w');
  await page.locator('.board-note [data-problem="powerOff"]').waitFor();
  await page.keyboard.press('w');
  await boardSays(page, 'runs this layout, kept');
  await shows('24.0 s');
});

test('the next green is held when it comes', async () => {
  const { page } = rig;
  await page.keyboard.press('Shift+H');
  const label = page.locator('.at-hand-now .running-label');
  const before = await label.textContent();
  await page.keyboard.press('s');
  await page.getByRole('button', { name: 'Let go' }).waitFor();
  await happened(page, /^Held Market Cross at ".* green", as asked\.$/);
  expect(await label.textContent()).not.toBe(before);
  expect(await label.textContent()).toMatch(/green$/);
  await page.keyboard.press('h');
  await page.getByRole('button', { name: 'Hold', exact: true }).waitFor();
});

test('the page had nothing to complain of', () => {
  expect(rig.complaints).toEqual([]);
});
