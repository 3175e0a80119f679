/** What the system asks the person for. The panel gets what was chosen, never a way to any other file. */
import { type BrowserWindow, dialog, type FileFilter } from 'electron';
import type { Problem } from '../../shared/workbench/contract.ts';

const LAYOUTS: FileFilter = { name: 'Layouts', extensions: ['amberwick', 'json'] };
const PHOTOS: FileFilter = { name: 'Photos', extensions: ['jpg', 'jpeg', 'png', 'webp', 'heic', 'tif', 'tiff'] };
const ANY: FileFilter = { name: 'All files', extensions: ['*'] };

export interface Dialogs {
  /** Path of a layout; null when the person thought better of it. */
  open(): Promise<string | null>;
  /** Path to write to; the system has asked whether a file that is there may be replaced. */
  saveAs(name: string): Promise<string | null>;
  choosePhoto(): Promise<string | null>;
  /** Says what did not work, where the panel was not asked. */
  tell(problem: Problem): void;
}

export function createDialogs(window: () => BrowserWindow | null): Dialogs {
  const choose = async (title: string, filters: FileFilter[]): Promise<string | null> => {
    const options = { title, filters, properties: ['openFile' as const] };
    const current = window();
    const { canceled, filePaths } = await (current
      ? dialog.showOpenDialog(current, options)
      : dialog.showOpenDialog(options));
    return canceled ? null : (filePaths[0] ?? null);
  };
  return {
    open: () => choose('Open a layout', [LAYOUTS, ANY]),
    saveAs: async (name) => {
      const options = {
        title: 'Save the layout',
        defaultPath: name,
        filters: [LAYOUTS, ANY],
        properties: ['showOverwriteConfirmation' as const, 'createDirectory' as const],
      };
      const current = window();
      const { canceled, filePath } = await (current
        ? dialog.showSaveDialog(current, options)
        : dialog.showSaveDialog(options));
      return canceled || !filePath ? null : filePath;
    },
    choosePhoto: () => choose('Attach a photo', [PHOTOS, ANY]),
    tell: ({ what, why, next }) => {
      const options = { type: 'warning' as const, message: what, detail: `${why}\n${next}` };
      const current = window();
      void (current ? dialog.showMessageBox(current, options) : dialog.showMessageBox(options));
    },
  };
}
