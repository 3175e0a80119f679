/** Puts the host together for a shell: log, ports, virtual boards, workbench. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { Outcome } from '../../../shared/workbench/contract.ts';
import type { Handlers, Telling } from '../../../shared/workbench/serve.ts';
import { BoardBook } from '../book/board-book.ts';
import { LayoutCopy } from '../book/layout-copy.ts';
import { CheckBook } from '../checks/check-book.ts';
import { systemClock } from '../clock.ts';
import type { Chooser } from '../files/file-calls.ts';
import { LayoutsFolder } from '../files/layouts-folder.ts';
import { LeftCopies } from '../files/left-copies.ts';
import { folderText } from '../files/places.ts';
import { RecentFiles } from '../files/recent-files.ts';
import { TemplateShelf } from '../files/template-shelf.ts';
import { writeFirmware } from '../loader/write.ts';
import { SessionLog } from '../log/session-log.ts';
import { type SerialPorts, systemPorts } from './ports.ts';
import type { PdfPrinter } from './sheet-pdf.ts';
import { type PinWatch, virtualMaker } from './virtual-boards.ts';
import { WorkbenchHost } from './workbench.ts';

export type { Chooser } from '../files/file-calls.ts';

export interface HostOptions {
  readonly shell: 'electron' | 'browser';
  readonly version: string;
  /** Session logs go to `sessions`, EEPROMs of virtual boards to `virtual`, what boards keep to `boards`, lamp checks to `checks`, the open layout to `layouts` in it. */
  readonly dataFolder: string;
  readonly onLevels?: PinWatch;
  /** Default: the serial ports of the computer. */
  readonly serial?: SerialPorts;
  /** Absent where the shell cannot make PDF files. */
  readonly printer?: PdfPrinter;
  /** The system's dialogs; absent in a browser, where there is a folder of layouts instead. */
  readonly chooser?: Chooser;
  /** Where layouts are listed and saved without such dialogs; made when something is saved first. */
  readonly layoutsFolder?: string;
  /** Path of a photo that the person chose; absent where the shell has no dialog. */
  readonly choosePhoto?: () => Promise<string | null>;
}

export interface Host {
  readonly handlers: Handlers;
  readonly telling: Telling;
  /** Opens the example on its virtual boards; is done when they run it. */
  start(): Promise<void>;
  /** Opens a file that the system hands over, such as by a double click; may be called before `start` is done. */
  openPath(path: string): Promise<Outcome<null>>;
  close(): Promise<void>;
}

export function createHost(options: HostOptions): Host {
  const { shell, version, dataFolder, onLevels, serial, printer, choosePhoto, chooser, layoutsFolder } = options;
  const now = () => new Date();
  const copies = join(dataFolder, 'layouts');
  return new WorkbenchHost({
    shell,
    version,
    clock: systemClock,
    now,
    log: new SessionLog(join(dataFolder, 'sessions'), now),
    book: new BoardBook(join(dataFolder, 'boards'), now),
    checks: new CheckBook(join(dataFolder, 'checks')),
    layouts: new LayoutCopy(copies),
    files: {
      recent: new RecentFiles(copies, now),
      left: new LeftCopies(copies, now),
      templates: new TemplateShelf(join(dataFolder, 'templates')),
      folderText: (folder) => folderText(folder, homedir()),
      ...(chooser === undefined ? {} : { chooser }),
      ...(layoutsFolder === undefined ? {} : { folder: new LayoutsFolder(layoutsFolder) }),
    },
    pictures: join(dataFolder, 'pictures'),
    writeFirmware,
    serial: serial ?? systemPorts,
    makeVirtual: virtualMaker(join(dataFolder, 'virtual'), onLevels),
    ...(printer === undefined ? {} : { printer }),
    ...(choosePhoto === undefined ? {} : { choosePhoto }),
  });
}
