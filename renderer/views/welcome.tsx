import { useEffect, useRef } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { Cautions } from './cautions.tsx';

/** The first start: what one sees, and what this is not for. */
export function Welcome() {
  const { model, surface } = usePanel();
  const { welcomed } = model.preferences;
  const begin = useRef<HTMLButtonElement>(null);
  useEffect(() => begin.current?.focus(), []);
  if (welcomed.value) return null;
  return (
    <aside class="welcome" aria-label="Before you begin">
      <h2>This is Penmarrow</h2>
      <p>
        A small town on a virtual board: the firmware that a real board gets, running inside this program. Change a time
        with − and +, watch the lamps, press Keep.
      </p>
      <Cautions />
      <div class="row">
        <button
          ref={begin}
          type="button"
          class="button strong"
          onClick={() => {
            welcomed.value = true;
          }}
        >
          Begin with Penmarrow
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            welcomed.value = true;
            surface.sheet.value = 'new-layout';
          }}
        >
          Make a layout of your own
        </button>
      </div>
    </aside>
  );
}
