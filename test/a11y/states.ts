/** Screens that only circumstances bring about: set on the fake host, looked at like the others. */
import type { Page } from 'playwright-core';
import { doCommand, type Screen } from '../../scripts/screens/screens.ts';
import type { BoardState } from '../../shared/workbench/contract.ts';
import type { PageWindow } from './bench.ts';

/** Makes the board at hand be so. */
async function become(page: Page, state: Partial<BoardState>): Promise<void> {
  await page.evaluate((next) => {
    (window as unknown as PageWindow).host.boards[0]?.become(next);
  }, state);
}

const PROBLEM = {
  code: 'portBusy',
  what: 'Port /dev/ttyUSB0 is in use by another program.',
  why: 'Only one program at a time can have a port: a serial monitor or a second Amberwick may be open.',
  next: 'Close the other program and connect again.',
  detail: 'EBUSY',
};

const connect = async (page: Page, plugged: string): Promise<void> => {
  await page.evaluate(async (what) => {
    const { host, model } = window as unknown as PageWindow;
    host.plugged.set('/dev/ttyUSB0', what as never);
    await model.ask('disconnect', { board: 'town' });
    await model.ask('connect', { board: 'town', port: '/dev/ttyUSB0' });
  }, plugged);
};

export const STATES: readonly Screen[] = [
  {
    name: 'something did not work',
    distance: 'layout',
    open: (page) =>
      page.evaluate((problem) => {
        (window as unknown as PageWindow).model.trouble.value = { about: {}, problem };
      }, PROBLEM),
  },
  {
    name: 'something did not work, across the room',
    distance: 'room',
    open: (page) =>
      page.evaluate((problem) => {
        (window as unknown as PageWindow).model.trouble.value = { about: {}, problem };
      }, PROBLEM),
  },
  {
    name: 'a board that is lost',
    distance: 'layout',
    open: (page) => become(page, { link: 'lost', problem: PROBLEM }),
  },
  {
    name: 'a time that is not kept',
    distance: 'layout',
    open: async (page) => {
      await page.getByRole('button', { name: 'Longer: Green, Fore Street' }).click();
      await page.locator('.dial.unkept').waitFor();
    },
  },
  {
    name: 'a time that cannot be read',
    distance: 'layout',
    open: async (page) => {
      await page.locator('#dial-green-1').fill('soon');
      await page.keyboard.press('Enter');
    },
  },
  {
    name: 'the question before the firmware is written',
    sheet: 'firmware',
    distance: 'layout',
    open: async (page) => {
      await connect(page, 'bare');
      await doCommand(page, 'write-firmware');
      await page.locator('.sheet .question').waitFor();
    },
  },
  {
    name: 'the reset button is wanted',
    distance: 'layout',
    open: (page) => become(page, { task: { name: 'firmware', done: 0, total: 0, stage: 'press', cancellable: true } }),
  },
  {
    name: 'a file that is no layout',
    distance: 'desk',
    open: (page) =>
      page.evaluate(async () => {
        await (window as unknown as PageWindow).model.ask('openText', { name: 'list.json', text: '[1, 2' });
      }),
  },
  {
    name: 'a layout with findings',
    distance: 'desk',
    open: (page) =>
      page.evaluate(async () => {
        const { model } = window as unknown as PageWindow;
        const layout = JSON.parse(model.text.value ?? '{}');
        layout.sites[0].amber = 1500;
        layout.sites[1].allRed = 100;
        await model.ask('openText', { name: 'short.json', text: JSON.stringify(layout) });
      }),
  },
];

/** The first start: the cautions, before anything else. */
export const WELCOME: Screen = {
  name: 'the first start',
  distance: 'layout',
  open: (page) => page.locator('.welcome').waitFor(),
};
