/**
 * Calls about layout files on the disk of this computer. The panel never names a path: it chooses from what the host
 * lists, or the shell asks the person by the system's own dialog.
 */
import { z } from 'zod';

const id = z.string().min(1).max(255);
const layoutText = z.string().max(4_000_000);

export const FILE_CALLS = {
  /** The system's dialog, then opens what was chosen; null when the person thought better of it. `noChooser` where the shell has none. */
  chooseFile: z.strictObject({}),
  /** What is in the folder of layouts, and what was opened or saved last. */
  listFiles: z.strictObject({}),
  /** Opens one of those; from `left`: with the changes that it was left with. */
  openFile: z.strictObject({ from: z.enum(['folder', 'recent', 'left']), id }),
  /** Takes one out of the list: of recent ones the file stays, of those that were left the changes go. */
  forgetFile: z.strictObject({ from: z.enum(['recent', 'left']), id }),
  /** Puts back what was open before the last opening, as it was left; `to`: its `opened`. */
  turnBack: z.strictObject({ to: z.int() }),
  /** The text of the open layout as its file has it now; without a file as it was opened first. */
  readSaved: z.strictObject({}),
  /** Writes the open layout to its file; `over`: also when something else has changed the file meanwhile. */
  save: z.strictObject({ over: z.boolean() }),
  /** Under another name, or for the first time; the system's dialog where the shell has one, else into the folder of layouts. */
  saveAs: z.strictObject({ name: z.string().min(1).max(120), over: z.boolean() }),
  /** Opens a layout that has no file yet; `what` is a line in the past tense for the log. */
  newLayout: z.strictObject({ name: z.string().min(1).max(120), text: layoutText, what: z.string().min(1).max(400) }),
  /** Sites that the person has kept to be used again. */
  listTemplates: z.strictObject({}),
  /** `text`: a site as JSON, with its timings, without its outputs. A template of the same name is replaced. */
  keepTemplate: z.strictObject({ name: z.string().min(1).max(80), text: z.string().max(400_000) }),
  dropTemplate: z.strictObject({ id }),
} as const;

/** A layout file that can be opened. */
export interface LayoutFile {
  /** Names it in `openFile`; no path. */
  readonly id: string;
  readonly name: string;
  /** Folder as a person reads it. */
  readonly folder: string;
  /** Last changed, or for recent ones opened, ISO 8601. */
  readonly at: string;
  /** False when it is no longer there. */
  readonly exists: boolean;
}

export interface SiteTemplate {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly text: string;
}

/** Where the open layout is kept. */
export interface DocumentFile {
  /** Folder as a person reads it; null: it has no file yet. */
  readonly folder: string | null;
  /** Holds something that its file does not. Nothing is lost by closing: the host keeps a copy. */
  readonly unsaved: boolean;
  /** Came from the copy that the host keeps, as the app ended without being closed. */
  readonly recovered: boolean;
}

export interface FileResults {
  chooseFile: null;
  listFiles: {
    /** The folder of layouts as a person reads it; null where the shell has a dialog of the system. */
    readonly folder: string | null;
    readonly files: readonly LayoutFile[];
    readonly recent: readonly LayoutFile[];
    /** Left with changes that are in no file. */
    readonly left: readonly LayoutFile[];
  };
  openFile: null;
  forgetFile: null;
  turnBack: null;
  readSaved: { readonly text: string };
  save: null;
  saveAs: null;
  newLayout: null;
  listTemplates: readonly SiteTemplate[];
  keepTemplate: null;
  dropTemplate: null;
}
