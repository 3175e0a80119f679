import { usePanel } from '../model/context.ts';

/** One word about the layout's file; nothing where all of it is saved. */
export function FileState() {
  const { model } = usePanel();
  const file = model.file.value;
  if (!file?.unsaved) return null;
  return (
    <span class="file-state" title="Nothing is lost by closing: this computer keeps a copy.">
      {file.recovered ? 'recovered, not saved' : 'not saved'}
    </span>
  );
}

/** Where the layout is kept, as a sentence; for the desk. */
export function FileWords() {
  const { model } = usePanel();
  const file = model.file.value;
  if (!file) return null;
  const { folder, unsaved, recovered } = file;
  const where = folder === null ? 'It has no file of its own yet.' : `It is kept in ${folder}.`;
  return (
    <p class="file-words">
      {where} {unsaved ? 'It has changes that are not saved; closing does not lose them.' : null}
      {recovered ? ' They came back after Amberwick had ended without being closed.' : null}
    </p>
  );
}
