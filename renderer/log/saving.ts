/** Saves the log of this session or of an earlier one: all of it, or what is shown. */

import { exported, type Format } from '../../shared/workbench/story/export.ts';
import { EVERYTHING } from '../../shared/workbench/story/filter.ts';
import type { OpenSession } from '../model/logbook.ts';
import type { Model } from '../model/model.ts';
import type { Surface } from '../model/surface.ts';

interface Which {
  /** Null: this session. */
  readonly opened: OpenSession | null;
  readonly onlyShown: boolean;
}

export async function saveLogAs(
  model: Model,
  surface: Surface,
  format: Format,
  { opened, onlyShown }: Which,
): Promise<void> {
  const { logbook } = model;
  const filter = onlyShown ? logbook.filter.peek() : EVERYTHING;
  if (opened) {
    if (format === 'jsonl' && !onlyShown) {
      // As it stands on the disk, with lines that nobody can read.
      const file = await model.ask('sessionText', { name: opened.name });
      if (file.ok) surface.saveFile(file.value.name, file.value.text);
      return;
    }
    const layout = logbook.earlier.list.peek()?.find(({ name }) => name === opened.name)?.layouts[0] ?? null;
    const { name, text } = exported(format, { ...opened, session: opened.name, layout, filter, zone: logbook.zone });
    surface.saveFile(name, text);
    return;
  }
  const log = await model.ask('readLog', {});
  if (!log.ok) return;
  if (format === 'jsonl' && !onlyShown) {
    surface.saveFile(log.value.name, log.value.text);
    return;
  }
  const layout = model.open.peek().layout?.name ?? null;
  const entries = model.log.peek();
  const { name, text } = exported(format, { session: log.value.name, layout, entries, filter, zone: logbook.zone });
  surface.saveFile(name, text);
}
