/** What the host knows of the program itself. */
import type { SHELL_CALLS } from '../../../shared/workbench/calls/shell.ts';
import type { CallResults } from '../../../shared/workbench/contract.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';
import { chipName } from '../service/failures.ts';
import { shippedImages } from '../service/shipped.ts';
import { readLicences } from './licences.ts';

type Calls = Pick<Handlers, keyof typeof SHELL_CALLS>;

/** `version` is the app's own. A shell with menus of the system answers `setMenus` itself. */
export function shellCalls(version: string): Calls {
  return {
    setMenus: () => ({ ok: true, value: null }),
    about: () => ({ ok: true, value: about(version) }),
  };
}

function about(version: string): CallResults['about'] {
  const firmware = (['atmega328p', 'atmega2560'] as const).flatMap((chip) => {
    const image = shippedImages(chip);
    return image ? [{ chip: chipName(chip), version: image.version }] : [];
  });
  return { version, firmware, runtime: runtime(process.versions), licences: readLicences() };
}

/** In a browser the page runs in that browser, of which the host knows nothing. */
function runtime(versions: Readonly<Record<string, string | undefined>>): CallResults['about']['runtime'] {
  const parts = [
    { name: 'Electron', version: versions.electron },
    { name: 'Chromium', version: versions.chrome },
    { name: 'Node', version: versions.node },
    { name: 'V8', version: versions.v8 },
  ];
  return parts.flatMap(({ name, version }) => (version ? [{ name, version }] : []));
}
