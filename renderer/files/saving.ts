/** Saving the open layout: to its file, or under a name that the person gives. */
import { signal } from '@preact/signals';
import type { Problem } from '../../shared/workbench/contract.ts';
import { suggestedName } from '../../shared/workbench/file-names.ts';
import type { Model } from '../model/model.ts';
import { closeSheet, layOver, type Surface } from '../model/surface.ts';

/** Why the last try did not work: shown where the name is typed, with what can be done. */
export const inTheWay = signal<Problem | null>(null);

/** To its file; where it has none, or something else has changed it, the sheet asks. */
export async function save(model: Model, surface: Surface): Promise<void> {
  const outcome = await model.call('save', { over: false });
  if (outcome.ok) return;
  if (outcome.problem.code === 'noFileYet') await beginSaveAs(model, surface);
  else show(surface, outcome.problem);
}

export async function saveOver(model: Model, surface: Surface): Promise<void> {
  const outcome = await model.call('save', { over: true });
  if (outcome.ok) done(surface);
  else show(surface, outcome.problem);
}

/** A shell with dialogs of the system asks by one of those. */
export async function beginSaveAs(model: Model, surface: Surface): Promise<void> {
  inTheWay.value = null;
  if (model.host.value?.shell === 'electron') await saveAs(model, surface, nameFor(model), false);
  else layOver(surface, 'save-as');
}

export async function saveAs(model: Model, surface: Surface, name: string, over: boolean): Promise<void> {
  const outcome = await model.call('saveAs', { name, over });
  if (outcome.ok) done(surface);
  else show(surface, outcome.problem);
}

/** Its own name, else one made of the layout's. */
export function nameFor({ open, file }: Model): string {
  const { file: name, layout } = open.value;
  return file.value?.folder === null && layout ? suggestedName(name === '' ? layout.name : name) : name;
}

/** The text that its file has takes the place of the changes; one step of undo. */
export async function goBackToSaved(model: Model): Promise<boolean> {
  const outcome = await model.ask('readSaved', {});
  if (!outcome.ok) return false;
  const { text } = outcome.value;
  return text === model.text.value || model.change(text, `Went back to what is saved as ${model.open.value.file}.`);
}

/** The sheet goes, and what was under it is there again. */
export function putAway(surface: Surface): void {
  if (surface.sheet.peek() === 'save-as') closeSheet(surface);
}

function done(surface: Surface): void {
  inTheWay.value = null;
  putAway(surface);
}

function show(surface: Surface, problem: Problem): void {
  inTheWay.value = problem;
  layOver(surface, 'save-as');
}
