/**
 * Every screen of the panel: the views, each sheet, and what lies over them. The pictures of the README are made from
 * this list, and the checks of accessibility walk through it, so that no screen goes without either.
 */
import type { Page } from 'playwright-core';

export interface Screen {
  /** Of its pictures. */
  readonly name: string;
  /** The sheet it shows, as the panel calls it. */
  readonly sheet?: string;
  readonly distance: 'room' | 'layout' | 'desk';
  /** From the bare view to the screen, with the panel's own controls. */
  readonly open: (page: Page) => Promise<unknown>;
}

export const THEMES = ['dark', 'light'] as const;

/** Most bytes of a picture: a README is read on slow lines, too. */
export const LARGEST = 120_000;

export function pictureOf({ name }: Pick<Screen, 'name'>, theme: (typeof THEMES)[number]): string {
  return `${name}-${theme}.png`;
}

/** Does a command by the command finder. */
export async function doCommand(page: Page, id: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.locator(`[data-entry="${id}"]`).click();
  await page.locator('.finder').waitFor({ state: 'detached' });
}

const nothing = async (): Promise<void> => {};

/** A sheet with its first state; `shows` is in it when it is whole. */
function sheet(name: string, command: string, shows: string, more: (page: Page) => Promise<unknown> = nothing): Screen {
  return {
    name,
    sheet: name,
    distance: 'layout',
    open: async (page) => {
      await doCommand(page, command);
      await page.locator(`.sheet ${shows}`).first().waitFor();
      await more(page);
    },
  };
}

const named = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name });

export const SCREENS: readonly Screen[] = [
  { name: 'layout', distance: 'layout', open: nothing },
  { name: 'room', distance: 'room', open: nothing },
  { name: 'desk', distance: 'desk', open: nothing },
  {
    name: 'arrange',
    distance: 'layout',
    open: (page) => doCommand(page, 'arrange'),
  },
  {
    name: 'finder',
    distance: 'layout',
    open: async (page) => {
      await page.keyboard.press('Control+k');
      await page.keyboard.type('gre');
    },
  },
  {
    name: 'menu',
    distance: 'layout',
    open: async (page) => {
      await named(page, 'Menu').click();
      await page.getByRole('menuitem', { name: 'Board', exact: true }).click();
    },
  },
  sheet('board', 'board-sheet', '.ports'),
  sheet('new-layout', 'new-layout', 'button'),
  sheet('layouts', 'layouts', 'button'),
  sheet('save-as', 'save-as', 'input'),
  sheet('new-site', 'new-site', '.offer'),
  sheet('phases', 'phases-sheet', '.live-chart svg'),
  sheet('traffic', 'traffic-sheet', 'input'),
  sheet('wave', 'wave-sheet', 'input'),
  sheet('sets', 'sets-sheet', 'button'),
  sheet('differs', 'differs-sheet', 'button'),
  sheet('changes', 'changes-sheet', 'button'),
  sheet('wiring', 'plan-wiring', '.slot'),
  {
    ...sheet('wiring', 'plan-wiring', '.slot', (page) => named(page, 'Currents').click()),
    name: 'currents',
  },
  sheet('wiring-sheet', 'wiring-sheet', 'button'),
  sheet('scale', 'scale-sheet', 'select'),
  sheet('check', 'lamp-check', 'button'),
  {
    ...sheet('check', 'lamp-check', 'button', async (page) => {
      await named(page, /^Check \d+ lamps$/).click();
      await page.locator('.check-asking').waitFor();
    }),
    name: 'checking',
  },
  sheet('find', 'find-wiring', 'button'),
  sheet('practise', 'practise', 'button'),
  sheet('keeps', 'earlier-keeps', 'li'),
  sheet('logbook', 'logbook', 'button'),
  {
    ...sheet('logbook', 'earlier-sessions', 'button'),
    name: 'earlier-sessions',
  },
  sheet('frames', 'frames-sheet', 'button'),
  sheet('report', 'save-report', 'button'),
  sheet('help', 'help', '.help-contents'),
  {
    name: 'help-chapter',
    sheet: 'help',
    distance: 'layout',
    open: async (page) => {
      await doCommand(page, 'help trouble');
      await page.locator('.help-troubles').waitFor();
    },
  },
  sheet('about', 'about', '.about'),
];
