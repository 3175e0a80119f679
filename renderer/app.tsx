import { useEffect, useLayoutEffect } from 'preact/hooks';
import { COMMANDS } from './commands/all.ts';
import type { Command } from './commands/command.ts';
import { commandFor, type Focus } from './commands/keys.ts';
import { DropTarget } from './files/drop-target.tsx';
import { Finder } from './finder/finder.tsx';
import { usePanel } from './model/context.ts';
import type { Model } from './model/model.ts';
import type { Distance } from './model/preferences.ts';
import { Boundary } from './views/boundary.tsx';
import { DeskView } from './views/desk.tsx';
import { Foot, TroubleNote } from './views/foot.tsx';
import { LayoutView } from './views/layout.tsx';
import { RoomView } from './views/room.tsx';
import { SheetOver } from './views/sheet.tsx';
import { TopBar } from './views/top-bar.tsx';
import { Welcome } from './views/welcome.tsx';
import { PressNow } from './writing/press-now.tsx';

const VIEWS: Readonly<Record<Distance, () => preact.JSX.Element>> = {
  room: RoomView,
  layout: LayoutView,
  desk: DeskView,
};

/** Figures are drawn anew so often, ms: tenths of seconds in time, and no more work than that. */
const FRAME = 50;

export function App() {
  const { model } = usePanel();
  useKeys();
  useFrames();
  const distance = model.preferences.distance.value;
  const View = VIEWS[distance];
  return (
    <div class={`app at-${distance}`}>
      <Boundary part="The panel" main>
        <TopBar />
        <Boundary part="This view" main>
          <View />
        </Boundary>
        <Foot />
        <TroubleNote />
        <SheetOver />
        <Finder />
        <PressNow />
        <Welcome />
        <DropTarget />
      </Boundary>
    </div>
  );
}

function useKeys(): void {
  const { model, surface } = usePanel();
  // As it is drawn: an effect comes up to a tenth of a second later, and a key would do nothing.
  useLayoutEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented) return;
      const command = commandFor(event, focusOf(event.target), COMMANDS, model.preferences.singleKeys.value);
      if (!command) return;
      event.preventDefault();
      const after = model.log.peek().at(-1)?.number ?? 0;
      const isReady = command.when(model);
      surface.told.value = isReady ? null : { text: whyNot(command, model), after };
      if (!isReady) return;
      void command.run(model, surface);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [model, surface]);
}

/** A key that does nothing says why. */
function whyNot(command: Command, model: Model): string {
  return `${command.label}: ${command.why?.(model) ?? 'not now.'}`;
}

function focusOf(target: EventTarget | null): Focus {
  if (!(target instanceof HTMLElement)) return 'free';
  if (target.dataset.dialField !== undefined) return target.dataset.typing === 'true' ? 'text' : 'dial';
  return target.matches('input:not([type="checkbox"]), textarea, select') ? 'text' : 'free';
}

function useFrames(): void {
  const { model } = usePanel();
  useEffect(() => {
    let last = 0;
    let handle = requestAnimationFrame(function draw(now) {
      if (now - last >= FRAME - 4) {
        last = now;
        model.frame();
      }
      handle = requestAnimationFrame(draw);
    });
    return () => cancelAnimationFrame(handle);
  }, [model]);
}
