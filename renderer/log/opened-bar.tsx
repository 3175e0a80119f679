import { counted, listed } from '../../shared/workbench/story/counted.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSession } from '../model/logbook.ts';
import { sessionMoment } from './session-words.ts';

/** Which earlier session is read, and the way back. */
export function OpenedBar({ opened }: { readonly opened: OpenSession }) {
  const { model } = usePanel();
  const { logbook } = model;
  const torn = opened.unreadable;
  return (
    <>
      <p class="row">
        <button type="button" class="button" onClick={() => logbook.show('earlier')}>
          Back to the list
        </button>
        <b>{sessionMoment(opened.entries[0]?.at ?? '', opened.name, logbook.zone)}</b>
      </p>
      {torn.length > 0 && (
        <p>
          {counted(torn.length, 'line')} of the file {torn.length === 1 ? 'is' : 'are'} damaged and left out:{' '}
          {torn.length === 1 ? 'line' : 'lines'} {listed(torn.map(String), 6)}. Saved as JSON Lines, the file is as it
          stands on the disk.
        </p>
      )}
    </>
  );
}
