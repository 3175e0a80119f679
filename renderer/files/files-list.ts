/** What the host has of files, asked anew whenever a sheet about them opens or the open layout changes its file. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { FileResults } from '../../shared/workbench/calls/files.ts';
import { usePanel } from '../model/context.ts';

export type FilesList = FileResults['listFiles'];

export function useFiles(again = 0): FilesList | null {
  const { model } = usePanel();
  const list = useSignal<FilesList | null>(null);
  const file = model.file.value;
  const name = model.open.value.file;
  useEffect(() => {
    void model.ask('listFiles', {}).then((outcome) => {
      if (outcome.ok) list.value = outcome.value;
    });
  }, [model, name, file?.folder, file?.unsaved, again]);
  return list.value;
}
