import { useEffect } from 'preact/hooks';
import { onDrop } from '../files/drop.ts';
import { usePanel } from '../model/context.ts';
import { layFile } from './choose.ts';

/** A picture that is dropped on the window lies under the plan. */
export function useDroppedPicture(): void {
  const { model } = usePanel();
  useEffect(() => onDrop('picture', (file) => layFile(model, file)), [model]);
}
