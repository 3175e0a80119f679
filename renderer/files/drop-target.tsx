import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { hearClipboard } from './clipboard.ts';
import { listenForDrops, onDrop } from './drop.ts';

/** The whole window takes files, and copied sites. Only while something is held over it there is anything to see. */
export function DropTarget() {
  const { model, surface } = usePanel();
  const isOver = useSignal(false);
  useEffect(() => {
    const ends = [
      onDrop('layout', async (file) => {
        await model.ask('openText', { name: file.name, text: await file.text() });
      }),
      listenForDrops(window, {
        over: (is) => {
          isOver.value = is;
        },
        refused: (what, why, next) => {
          model.trouble.value = { about: {}, problem: { code: 'notDropped', what, why, next } };
        },
      }),
      hearClipboard(document, model, (text) => {
        surface.told.value = { text, after: model.log.peek().at(-1)?.number ?? 0 };
      }),
    ];
    return () => {
      for (const end of ends) end();
    };
  }, [model, surface]);
  return isOver.value ? (
    <div class="drop-target">
      <p>Let go here: a layout opens, a picture lies under the plan.</p>
    </div>
  ) : null;
}
