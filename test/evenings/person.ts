/** A person at the panel: what they do and see, in their words. Everything they do is counted. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { boardSays } from '../panel/rig.ts';

/** Longest wait for a picture to be as it should, ms. */
const PATIENCE = 60_000;

export class Person {
  readonly page: Page;
  /** Clicks, keys and texts so far. */
  actions = 0;

  constructor(page: Page) {
    this.page = page;
  }

  async clicks(name: string | RegExp, role: 'button' | 'radio' | 'switch' = 'button'): Promise<void> {
    this.actions++;
    await this.page.getByRole(role, { name, ...(typeof name === 'string' ? { exact: true } : {}) }).click();
  }

  async presses(...keys: string[]): Promise<void> {
    for (const key of keys) {
      this.actions++;
      await this.page.keyboard.press(key);
    }
  }

  /** One text counts as one action. */
  async types(text: string): Promise<void> {
    this.actions++;
    await this.page.keyboard.type(text);
  }

  async writes(field: string | RegExp, text: string): Promise<void> {
    this.actions++;
    await this.page.getByLabel(field, typeof field === 'string' ? { exact: true } : {}).fill(text);
    await this.page.keyboard.press('Enter');
  }

  /** The line at the foot of the screen, which says what was done. */
  async reads(words: RegExp): Promise<void> {
    await this.page.locator('.happened', { hasText: words }).waitFor();
    // Nobody presses the next key in the same instant.
    await this.page.waitForTimeout(300);
  }

  async seesBoard(words: string): Promise<void> {
    await boardSays(this.page, words);
  }

  async seesTitle(name: string): Promise<void> {
    await this.page.getByRole('heading', { level: 1, name, exact: true }).waitFor();
  }

  async seesLampsGlow(): Promise<void> {
    await this.page.locator('.lamp[data-look="lit"]').first().waitFor();
  }

  /** A lamp changes while one looks. */
  async seesLampsChange(): Promise<void> {
    const before = await this.lamps();
    await expect.poll(() => this.lamps(), { timeout: PATIENCE }).not.toBe(before);
  }

  lamps(): Promise<string> {
    return this.page
      .locator('.lamp')
      .evaluateAll((all) => all.map((it) => it.getAttribute('data-look')?.charAt(0)).join(''));
  }

  dial(id: string): Locator {
    return this.page.locator(`#dial-${id}`);
  }

  async seesTime(id: string, text: string): Promise<void> {
    await expect.poll(() => this.dial(id).inputValue(), { timeout: PATIENCE }).toBe(text);
  }

  async setsTime(id: string, text: string): Promise<void> {
    this.actions++;
    await this.dial(id).fill(text);
    await this.page.keyboard.press('Enter');
  }

  /** So that single keys are commands again. */
  async letsGo(): Promise<void> {
    await this.page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  }

  /** By a press on its name on the plan. */
  async takesInHand(site: string): Promise<void> {
    this.actions++;
    await this.page.locator('.plan .site', { hasText: site }).locator('circle').first().click();
    await this.page.locator('.plan .site.at-hand', { hasText: site }).waitFor();
    await this.letsGo();
  }

  /** Point by point with the pointer; `points` are mm from the left and from the back of the baseboard. */
  async drawsRoad(points: readonly (readonly [number, number])[]): Promise<void> {
    await this.clicks('Draw a road');
    await this.page.locator('#road-cursor').waitFor();
    for (const [index, [x, y]] of points.entries()) {
      const at = await this.page.locator('svg.town').evaluate(
        (svg, point) => {
          const matrix = (svg as SVGSVGElement).getScreenCTM() ?? undefined;
          const { x: left, y: top } = new DOMPoint(point[0], point[1]).matrixTransform(matrix);
          return { left, top };
        },
        [x, y] as const,
      );
      this.actions++;
      await this.page.mouse.click(at.left, at.top);
      await this.page.getByText(index === 0 ? '1 point set.' : `${index + 1} points set.`).waitFor();
    }
    await this.clicks('End the road here');
  }

  /** The power of the virtual board fails and comes back. */
  async cutsThePower(): Promise<void> {
    await this.letsGo();
    await this.presses('w');
    await this.seesBoard('switched off');
    await this.presses('w');
  }

  /** Into the folder of layouts, for the first time. */
  async savesAs(name: string): Promise<void> {
    await this.letsGo();
    await this.presses('Control+s');
    await this.page.getByLabel('Name of the file').fill(name);
    await this.presses('Enter');
    await this.reads(new RegExp(`^Saved ${name}\\.amberwick\\.$`));
  }
}
