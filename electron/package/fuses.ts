/**
 * Switches in Electron's own program, set when a package is made: what it can be made to do by those who start it.
 * Meanings: "Electron Fuses" of the Electron documentation.
 */
import type { Configuration } from 'electron-builder';

type Fuses = NonNullable<Configuration['electronFuses']>;

export const FUSES = {
  /** It is no Node that runs whatever it is given. */
  runAsNode: false,
  enableNodeOptionsEnvironmentVariable: false,
  enableNodeCliInspectArguments: false,
  enableCookieEncryption: true,
  /** Only the archive it came with, and only unchanged (checked by Electron on Windows and macOS). */
  enableEmbeddedAsarIntegrityValidation: true,
  onlyLoadAppFromAsar: true,
  /** There is no such snapshot here. */
  loadBrowserProcessSpecificV8Snapshot: false,
  /** The panel has a scheme of its own; `file:` needs no powers. */
  grantFileProtocolExtraPrivileges: false,
} as const satisfies Required<Omit<Fuses, 'resetAdHocDarwinSignature'>>;
