import { useSignal } from '@preact/signals';
import type { LayoutFile } from '../../shared/workbench/calls/files.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { useFiles } from './files-list.ts';

/** Layouts that can be opened with one press: left unsaved, lately open, and all in the folder. */
export function LayoutsSheet() {
  const again = useSignal(0);
  const list = useFiles(again.value);
  if (!list) return <p role="status">Looking for layouts.</p>;
  const { folder, files, recent, left } = list;
  const dropped = () => {
    again.value += 1;
  };
  return (
    <>
      <div class="row">
        <CommandButton id="new-layout" class="button strong" />
        <CommandButton id="open-file">{folder === null ? 'Choose a file' : 'Hand over a file'}</CommandButton>
        <CommandButton id="open-example" />
      </div>
      {left.length > 0 && (
        <Files title="Not saved" from="left" files={left} dropped={dropped}>
          These were open with changes that are in no file.
        </Files>
      )}
      {recent.length > 0 && <Files title="Open lately" from="recent" files={recent} dropped={dropped} />}
      {folder !== null && (
        <Files title={`In ${folder}`} from="folder" files={files} dropped={dropped}>
          {files.length === 0 ? 'Nothing was saved here yet. Saving makes this folder.' : undefined}
        </Files>
      )}
    </>
  );
}

interface Props {
  readonly title: string;
  readonly from: 'left' | 'recent' | 'folder';
  readonly files: readonly LayoutFile[];
  readonly children?: string | undefined;
  dropped(): void;
}

const DROP: Readonly<Record<'left' | 'recent', string>> = { left: 'Throw away', recent: 'Forget' };

function Files({ title, from, files, children, dropped }: Props) {
  const { model, surface } = usePanel();
  const open = async (id: string): Promise<void> => {
    if ((await model.ask('openFile', { from, id })).ok) surface.sheet.value = null;
  };
  return (
    <section class="layouts" aria-label={title}>
      <h3>{title}</h3>
      {children !== undefined && <p>{children}</p>}
      <ul class="layout-files">
        {files.map(({ id, name, folder, at, exists }) => (
          <li key={id} class="row">
            <button
              type="button"
              class="button layout-file"
              aria-disabled={!exists}
              onClick={() => {
                if (exists) void open(id);
              }}
            >
              <span class="layout-name">{name}</span>
              <span class="layout-where">
                {exists
                  ? [from === 'folder' ? '' : folder, dateText(at)].filter(Boolean).join(', ')
                  : 'no longer there'}
              </span>
            </button>
            {from !== 'folder' && (
              <button
                type="button"
                class="button"
                aria-label={`${DROP[from]}: ${name}`}
                onClick={async () => {
                  await model.ask('forgetFile', { from, id });
                  dropped();
                }}
              >
                {DROP[from]}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** As people of this computer write it. */
function dateText(at: string): string {
  return new Date(at).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
}
