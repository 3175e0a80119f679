import { useEffect } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { Asking } from './asking.tsx';
import { Begin } from './begin.tsx';
import { Broken } from './broken.tsx';
import { Marking } from './marking.tsx';
import { Pointing } from './pointing.tsx';
import { Summary } from './summary.tsx';
import { Walking } from './walking.tsx';

/** The lamp check, as large as the window. Closing it lets the sites show again. */
export function CheckSheet() {
  const { model } = usePanel();
  const { check } = model;
  const phase = check.phase.value;
  useEffect(() => {
    const leave = (): void => void check.leave();
    // A page that goes away must not leave the board dark.
    window.addEventListener('pagehide', leave);
    return () => {
      window.removeEventListener('pagehide', leave);
      leave();
    };
  }, [check]);
  useEffect(() => {
    const sheet = document.querySelector<HTMLElement>('.sheet.whole');
    // Another part begins at its top, however far down the one before was read, and keeps the keyboard.
    sheet?.scrollTo(0, 0);
    if (document.activeElement === document.body) sheet?.focus();
  }, [phase]);
  switch (phase) {
    case 'begin':
      return <Begin />;
    case 'asking':
      return <Asking />;
    case 'pointing':
      return <Pointing />;
    case 'walking':
      return <Walking />;
    case 'marking':
      return <Marking />;
    case 'broken':
      return <Broken />;
    case 'ending':
      return (
        <p class="check-says" role="status">
          That was the last one. It is being written down.
        </p>
      );
    case 'summary':
      return <Summary />;
  }
}
