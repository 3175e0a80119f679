/** Everything that can be found by its name: commands, sites, dials, chapters of the help. */
import { timeText } from '../../shared/workbench/words.ts';
import { COMMANDS } from '../commands/all.ts';
import type { Command } from '../commands/command.ts';
import { CHAPTERS } from '../help/chapters.ts';
import { openHelp } from '../help/open.ts';
import { dialTimes } from '../model/compare.ts';
import type { OpenSite } from '../model/document.ts';
import type { Model } from '../model/model.ts';
import { closeSheet, type Surface } from '../model/surface.ts';
import { fitOf, type Searched } from './match.ts';

export interface Entry extends Searched {
  readonly id: string;
  /** Where it stands: a menu, a site. */
  readonly where: string;
  readonly shortcut: string | null;
  /** Why it cannot be done now; null: it can. */
  readonly why: string | null;
  run(): void | Promise<void>;
}

/** What opens the finder, and what closes things, is not looked for. */
const LEFT_OUT: ReadonlySet<string> = new Set(['find-command', 'put-away']);

export function entriesOf(model: Model, surface: Surface): Entry[] {
  const commands = COMMANDS.filter(({ id }) => !LEFT_OUT.has(id)).map((it) => commandEntry(it, model, surface));
  const { sites } = model.open.value;
  return [
    ...commands,
    ...sites.map((site) => siteEntry(site, model)),
    ...sites.flatMap((site) => dialEntries(site, model, surface)),
    ...CHAPTERS.map(({ id, title, words }) => ({
      id: `help ${id}`,
      label: `Help: ${title}`,
      words,
      hint: '',
      where: 'Help',
      shortcut: null,
      why: null,
      run: () => openHelp(surface, id),
    })),
  ];
}

function commandEntry(command: Command, model: Model, surface: Surface): Entry {
  const isReady = command.when(model);
  return {
    id: command.id,
    label: command.name?.(model) ?? command.label,
    words: [command.label, ...(command.words ?? [])],
    hint: command.hint,
    where: command.menu ?? '',
    shortcut: command.shortcut,
    why: isReady ? null : (command.why?.(model) ?? 'Not now.'),
    run: () => command.run(model, surface),
  };
}

function siteEntry(site: OpenSite, model: Model): Entry {
  return {
    id: `site ${site.id}`,
    label: `Take ${site.names.name} in hand`,
    words: ['site', 'go to', 'choose'],
    hint: '',
    where: 'Site',
    shortcut: null,
    why: null,
    run: () => model.choose(site.id),
  };
}

function dialEntries(site: OpenSite, model: Model, surface: Surface): Entry[] {
  return site.names.dials.map((dial, number) => {
    const { running, planned } = dialTimes(model, site, number);
    return {
      id: `dial ${site.id} ${dial.id}`,
      label: dial.name,
      words: [site.names.name, 'dial', 'time'],
      hint: `Now ${timeText(running ?? planned)}.`,
      where: site.names.name,
      shortcut: null,
      why: null,
      run: () => {
        model.choose(site.id);
        if (surface.sheet.value !== null) closeSheet(surface);
        model.preferences.distance.value = 'layout';
        surface.focus(`dial-${dial.id}`);
      },
    };
  });
}

/** What fits best first; among equals what can be done, then what was done lately, then the order of the menus. */
export function find(query: string, entries: readonly Entry[], recent: readonly string[]): Entry[] {
  const isAll = query.trim() === '';
  const rank = (id: string): number => {
    const at = recent.indexOf(id);
    return at < 0 ? recent.length : at;
  };
  return entries
    .map((entry, order) => ({ entry, order, points: fitOf(query, entry) }))
    .filter((it) => it.points > 0)
    .sort(
      (a, b) =>
        b.points - a.points ||
        (isAll ? 0 : Number(a.entry.why !== null) - Number(b.entry.why !== null)) ||
        rank(a.entry.id) - rank(b.entry.id) ||
        a.order - b.order,
    )
    .map(({ entry }) => entry);
}
