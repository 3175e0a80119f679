/** Calls about the sites that a person has kept to be used again. */

import { readParcel } from '../../../shared/layout/copy-site/parcel.ts';
import type { FILE_CALLS } from '../../../shared/workbench/calls/files.ts';
import type { LogKind } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';
import { fine } from '../result.ts';
import type { TemplateShelf } from './template-shelf.ts';

type TemplateCalls = Pick<Handlers, Extract<keyof typeof FILE_CALLS, `${string}Template${string}`>>;

export function templateCalls(shelf: TemplateShelf, log: (kind: LogKind, text: string) => void): TemplateCalls {
  return {
    listTemplates: () => fine(shelf.list()),
    keepTemplate: ({ name, text }) => {
      const read = readParcel(text);
      if (!read.ok) return problem('templateNotKept', { cause: read.findings[0]?.what ?? 'It is no site.' });
      try {
        shelf.keep({ name, kind: read.parcel.site.kind, text });
      } catch (error) {
        return problem('templateNotKept', { cause: `The system says: ${(error as Error).message}.` });
      }
      log('document', `Kept the template ${name}.`);
      return fine(null);
    },
    dropTemplate: ({ id }) => {
      const found = shelf.list().find((it) => it.id === id);
      if (!found || !shelf.drop(id)) return problem('noTemplate', {});
      log('document', `Dropped the template ${found.name}.`);
      return fine(null);
    },
  };
}
