import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './style/all.css';
import { render } from 'preact';
import { z } from 'zod';
import type { Workbench } from '../shared/workbench/contract.ts';
import { App } from './app.tsx';
import { PanelContext } from './model/context.ts';
import { createModel, type Model } from './model/model.ts';
import { createPreferences } from './model/preferences.ts';
import { joinMenus } from './shell-menus.ts';
import { createSurface } from './surface.ts';

// The content security policy forbids code made from text, which the schema library would try first.
z.config({ jitless: true });

/** Draws the panel into a page and gives its model. */
export function mount(workbench: Workbench, into: Element): Model {
  const preferences = createPreferences(window.localStorage);
  const model = createModel(workbench, { now: () => performance.now(), preferences });
  const surface = createSurface(preferences);
  render(
    <PanelContext.Provider value={{ model, surface }}>
      <App />
    </PanelContext.Provider>,
    into,
  );
  joinMenus(workbench, model, surface);
  void model.refresh();
  return model;
}
