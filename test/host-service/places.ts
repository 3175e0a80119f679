/** A disk for layouts in a fresh folder. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { FilePlaces } from '../../electron/host/files/file-calls.ts';
import { LayoutsFolder } from '../../electron/host/files/layouts-folder.ts';
import { LeftCopies } from '../../electron/host/files/left-copies.ts';
import { folderText } from '../../electron/host/files/places.ts';
import { RecentFiles } from '../../electron/host/files/recent-files.ts';
import { TemplateShelf } from '../../electron/host/files/template-shelf.ts';

export function home(): string {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-files-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function places(root = home(), more: Partial<FilePlaces> = {}): FilePlaces {
  const now = () => new Date('1965-06-01T12:00:00Z');
  return {
    folder: new LayoutsFolder(join(root, 'Layouts')),
    recent: new RecentFiles(join(root, 'data'), now),
    left: new LeftCopies(join(root, 'data'), now),
    templates: new TemplateShelf(join(root, 'templates')),
    folderText: (folder) => folderText(folder, root),
    ...more,
  };
}
