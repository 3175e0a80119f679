/** What is measured on every screen. */
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

/** WCAG 2.0, 2.1 and 2.2, levels A and AA, and the checker's best practices. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const LABEL_IN_NAME = 'label-content-name-mismatch';
const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Rules about colours: all that another look can break. */
export const COLOURS: readonly string[] = ['color-contrast', 'link-in-text-block'];

/** Violations found by axe-core, each in one line: rule, where, why. */
export async function violations(page: Page, rules: readonly string[] | null = null): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.addScriptTag({ path: AXE });
  const results = await page.evaluate(
    async ([tags, wanted, labels]) => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      const most = await axe.run(document, {
        runOnly: wanted ? { type: 'rule', values: [...wanted] } : { type: 'tag', values: [...tags] },
        resultTypes: ['violations'],
        ...(wanted ? {} : { rules: { [labels]: { enabled: false } } }),
      });
      // Letters in lamps are drawn, and keys are told by aria-keyshortcuts: this one rule would take both for words of the button.
      const without = document.createElement('style');
      without.textContent = '.lamp .letter, kbd { display: none }';
      document.head.append(without);
      const named = await axe.run(document, {
        runOnly: { type: 'rule', values: [labels] },
        resultTypes: ['violations'],
      });
      without.remove();
      return [...most.violations, ...named.violations];
    },
    [TAGS, rules, LABEL_IN_NAME] as const,
  );
  return results.flatMap(({ id, nodes }) =>
    nodes.map((it) => `${id}: ${it.target.join(' ')}: ${it.failureSummary?.split('\n').slice(1).join(' ').trim()}`),
  );
}

const CONTROLS =
  'button, a[href], input:not([type="hidden"]), select, textarea, summary, [role="button"], [role="option"], [role="menuitem"]';

/**
 * Controls that are smaller than so many CSS pixels either way. A field in a label is as large as its label; a control
 * in the plan is drawn to scale, has its equal among the tabs of the sites, and is measured there.
 */
export function tooSmall(page: Page, px: number, within = '#panel'): Promise<string[]> {
  return page.evaluate(
    ([controls, size, inside]) =>
      [...document.querySelectorAll(inside)]
        .flatMap((root) => [...root.querySelectorAll(controls)])
        .filter((it) => it.getClientRects().length > 0 && !it.closest('svg, [inert], .unseen'))
        .flatMap((it) => {
          const label = it.matches('input') ? it.closest('label') : null;
          const { width, height } = (label ?? it).getBoundingClientRect();
          if (Math.min(width, height) >= size - 0.05) return [];
          return [
            `${it.tagName} ${it.className} ${(it.getAttribute('aria-label') ?? it.textContent ?? '').slice(0, 40)}: ${Math.round(width)} x ${Math.round(height)}`,
          ];
        }),
    [CONTROLS, px, within] as const,
  );
}

/** Letters on the screen lower than so many CSS pixels, by the element that has them. */
export function tooFine(page: Page, px: number): Promise<string[]> {
  return page.evaluate((least) => {
    const out = new Set<string>();
    for (const it of document.querySelectorAll('#panel *')) {
      const hasText = [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      if (!hasText || it.getClientRects().length === 0 || it.matches('option, title')) continue;
      let size = Number.parseFloat(getComputedStyle(it).fontSize);
      if (it instanceof SVGGraphicsElement) {
        const matrix = it.getScreenCTM();
        if (matrix) size *= Math.hypot(matrix.a, matrix.b);
      }
      if (size < least - 0.05) out.add(`${it.tagName} ${it.getAttribute('class')}: ${size.toFixed(1)}`);
    }
    return [...out];
  }, px);
}

/** What sticks out sideways: WCAG 1.4.10, reflow. Plans are exempt there, as are charts; a region that scrolls says so itself. */
export function sideways(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const out: string[] = [];
    const { scrollWidth } = document.documentElement;
    if (scrollWidth > innerWidth) out.push(`page: ${scrollWidth} of ${innerWidth}`);
    for (const it of document.querySelectorAll('#panel *')) {
      if (it.closest('svg, pre, .stages, .live-chart, .preview') || it.getClientRects().length === 0) continue;
      const style = getComputedStyle(it);
      const scrolls = style.overflowX === 'auto' || style.overflowX === 'scroll';
      if (scrolls && it.scrollWidth > it.clientWidth + 1)
        out.push(`${it.tagName} ${it.className}: ${it.scrollWidth} of ${it.clientWidth}`);
    }
    return out;
  });
}

/** Controls that no scrolling brings into sight: cut off, or covered by something else that is not theirs. */
export function outOfReach(page: Page): Promise<string[]> {
  return page.evaluate((controls) => {
    const out: string[] = [];
    // What lies over the view may cover it.
    const over =
      document.querySelector('.press-now, dialog[open], .menu, .welcome, .sheet:not([hidden])') ??
      document.querySelector('#panel');
    for (const it of over?.querySelectorAll(controls) ?? []) {
      if (it.getClientRects().length === 0 || it.closest('svg, [inert], .unseen')) continue;
      const label = it.closest('label');
      let there: Element | null = null;
      const isReached = (['center', 'start', 'end'] as const).some((block) => {
        it.scrollIntoView({ block, inline: 'center' });
        const { left, top, width, height } = it.getBoundingClientRect();
        there = document.elementFromPoint(left + width / 2, top + height / 2);
        return there !== null && (it.contains(there) || there.contains(it) || label?.contains(there) === true);
      });
      if (isReached) continue;
      out.push(
        `${it.tagName} ${it.className} ${(it.getAttribute('aria-label') ?? it.textContent ?? '').slice(0, 40)} under ${(there as Element | null)?.getAttribute('class') ?? 'nothing'}`,
      );
    }
    scrollTo(0, 0);
    return out;
  }, CONTROLS);
}

/** Names of what moves although no motion is wanted. */
export function moving(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    document.getAnimations().map((it) => {
      const target = (it.effect as KeyframeEffect | null)?.target;
      return `${it.constructor.name} of ${target?.tagName} ${target?.getAttribute('class')}`;
    }),
  );
}

/** Name of what has the keyboard. */
export function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const it = document.activeElement;
    return `${it?.tagName} ${it?.id} ${it?.getAttribute('aria-label') ?? it?.textContent?.slice(0, 30)}`;
  });
}
