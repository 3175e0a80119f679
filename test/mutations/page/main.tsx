/** The real panel on the fake host, with a walk over everything that it can show. */
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import '../../../renderer/style/all.css';
import { render } from 'preact';
import { z } from 'zod';
import { App } from '../../../renderer/app.tsx';
import { PanelContext } from '../../../renderer/model/context.ts';
import { createModel } from '../../../renderer/model/model.ts';
import { createPreferences, type Distance } from '../../../renderer/model/preferences.ts';
import type { Sheet } from '../../../renderer/model/surface.ts';
import { createSurface } from '../../../renderer/surface.ts';
import { SHEETS } from '../../../renderer/views/sheets.ts';
import penmarrow from '../../../shared/layout/examples/penmarrow.json?raw';
import { parseLayout } from '../../../shared/layout/parse.ts';
import type { CallArgs, CallName, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { FakeWorkbench } from '../../panel/fake-workbench.ts';

z.config({ jitless: true });

/** As the real host: a text that is no layout is refused, and what was open stays. */
class Host extends FakeWorkbench {
  override async call<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>> {
    const text = 'text' in args && name !== 'remark' ? String(args.text) : null;
    if (text !== null && ['openText', 'changeText', 'newLayout'].includes(name)) {
      const { layout, findings } = parseLayout(text);
      if (!layout) return problem('layoutUnreadable', { cause: findings[0]?.what ?? '' });
    }
    return super.call(name, args);
  }
}

const host = new Host(penmarrow);
host.startExample();
const preferences = createPreferences(window.localStorage);
const model = createModel(host, { now: () => performance.now(), preferences });
const surface = createSurface(preferences);
render(
  <PanelContext.Provider value={{ model, surface }}>
    <App />
  </PanelContext.Provider>,
  document.getElementById('panel') as Element,
);
void model.refresh();

/** The next picture is on the screen, and what it set going has been done. */
const drawn = (): Promise<void> =>
  new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 0))));

/** What is wrong with the screen; null in good health. */
function wrongNow(): string | null {
  const broken = document.querySelector('.broken');
  if (broken) return broken.textContent;
  const main = document.querySelector('main');
  if (!main || (main.textContent ?? '').trim().length < 10) return 'the screen is blank';
  const { sheet } = surface;
  if (sheet.value && !document.querySelector('.sheet h2')?.textContent) return 'the sheet is blank';
  const across = document.documentElement.scrollWidth - innerWidth;
  return across > 0 ? `the page is ${across} px wider than the window` : null;
}

/** Every view, and every sheet over one of them, with some of the sites at hand. */
async function walk(): Promise<string[]> {
  const wrong: string[] = [];
  // Told before it is drawn, so that a page that never comes back says where it is.
  const goTo = (where: string): void => console.debug(where);
  const note = (where: string): void => {
    const what = wrongNow();
    if (what) wrong.push(`${where}: ${what}`);
  };
  const { sites } = model.open.value;
  for (const distance of ['room', 'layout', 'desk'] as const satisfies readonly Distance[]) {
    goTo(distance);
    preferences.distance.value = distance;
    for (const site of [sites.at(0), sites.at(-1)]) {
      if (site) model.choose(site.id);
      await drawn();
      note(`${distance}, ${site?.id ?? 'no site'}`);
    }
  }
  for (const sheet of Object.keys(SHEETS) as NonNullable<Sheet>[]) {
    goTo(`sheet ${sheet}`);
    surface.sheet.value = sheet;
    await drawn();
    note(`sheet ${sheet}`);
  }
  surface.sheet.value = null;
  surface.under.value = null;
  preferences.distance.value = 'desk';
  host.advance(5_000);
  await drawn();
  note('after 5 s');
  return wrong;
}

Object.assign(window, { host, model, walk });
