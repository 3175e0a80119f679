import type { FILE_CALLS } from '../../../shared/workbench/calls/files.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';

type Calls = Pick<Handlers, keyof typeof FILE_CALLS>;

export function fileCalls(): Calls {
  return {
    chooseFile: () => problem('badRequest', {}),
    listFiles: () => problem('badRequest', {}),
    openFile: () => problem('badRequest', {}),
    forgetFile: () => problem('badRequest', {}),
    save: () => problem('badRequest', {}),
    saveAs: () => problem('badRequest', {}),
    newLayout: () => problem('badRequest', {}),
    listTemplates: () => problem('badRequest', {}),
    keepTemplate: () => problem('badRequest', {}),
    dropTemplate: () => problem('badRequest', {}),
  };
}
