/** The panel's commands as menus of the system, where the shell has such: kept in step with what can be done. */
import { effect } from '@preact/signals';
import type { Menus } from '../shared/workbench/calls/shell.ts';
import type { Workbench } from '../shared/workbench/contract.ts';
import { COMMANDS } from './commands/all.ts';
import { type Command, MENUS } from './commands/command.ts';
import type { Model } from './model/model.ts';
import type { Surface } from './model/surface.ts';

/** Changes come in swarms, as when a board connects; the menus follow a moment later, ms. */
const MOMENT = 50;
/** As the call allows. */
const LONGEST_LABEL = 80;

/** Goes on as long as the panel; a browser has no menus to fill. Returns a function that ends it. */
export function joinMenus(workbench: Workbench, model: Model, surface: Surface, commands = COMMANDS): () => void {
  let told = '';
  let waiting: ReturnType<typeof setTimeout> | null = null;
  let next: Menus = [];
  const tell = (): void => {
    waiting = null;
    const text = JSON.stringify(next);
    if (text === told) return;
    told = text;
    void workbench.call('setMenus', { menus: next });
  };
  const following = effect(() => {
    if (model.host.value?.shell !== 'electron') return;
    next = menusOf(model, commands);
    waiting ??= setTimeout(tell, MOMENT);
  });
  const hearing = workbench.on('command', ({ id }) => {
    const command = commands.find((it) => it.id === id);
    // It may have become impossible between the menu and here.
    if (command?.when(model)) void command.run(model, surface);
  });
  return () => {
    following();
    hearing();
    if (waiting !== null) clearTimeout(waiting);
  };
}

export function menusOf(model: Model, commands: readonly Command[]): Menus {
  const menus = MENUS.map((title) => ({
    title,
    items: commands.filter(({ menu }) => menu === title).flatMap((command) => itemsOf(command, model)),
  }));
  return menus.filter(({ items }) => items.length > 0);
}

function itemsOf(command: Command, model: Model): Menus[number]['items'] {
  const checked = command.checked?.(model);
  const item = {
    id: command.id,
    label: (command.name?.(model) ?? command.label).slice(0, LONGEST_LABEL),
    shortcut: command.shortcut,
    enabled: command.when(model),
    ...(checked === undefined ? {} : { checked }),
  };
  return command.line ? ['line', item] : [item];
}
