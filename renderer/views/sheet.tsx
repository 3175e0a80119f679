import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { BoardPanel } from '../board/board-panel.tsx';
import { CheckSheet } from '../check/check-sheet.tsx';
import { CommandButton } from '../commands/button.tsx';
import { FindSheet } from '../find/find-sheet.tsx';
import { KeepsSheet } from '../keeps/keeps-sheet.tsx';
import { usePanel } from '../model/context.ts';
import type { Model } from '../model/model.ts';
import { closeSheet } from '../model/surface.ts';
import { NewSiteSheet } from '../new-site/new-site-sheet.tsx';
import { PhasesSheet } from '../phases/phases-sheet.tsx';
import { PractiseSheet } from '../practise/practise-sheet.tsx';
import { FramesSheet } from '../said/frames-sheet.tsx';
import { ReportSheet } from '../said/report-sheet.tsx';
import { ScaleSheet } from '../scale/scale-sheet.tsx';
import { WiringSheetOver } from '../sheet/wiring-sheet.tsx';
import { TrafficSheet } from '../traffic/traffic-sheet.tsx';
import { WaveSheet } from '../wave/wave-sheet.tsx';
import { WiringSheet } from '../wiring/wiring-sheet.tsx';
import { WritingSteps, writingTitle } from '../writing/writing-sheet.tsx';
import { Help } from './help.tsx';

/** What is laid over the right side of any view. The keys keep one sheet from being taken for another. */
export function SheetOver() {
  const { model, surface } = usePanel();
  switch (surface.sheet.value) {
    case 'board':
      return (
        <Sheet key="board" label="Board and port">
          <BoardPanel />
        </Sheet>
      );
    case 'help':
      return (
        <Sheet key="help" label="Help">
          <Help />
        </Sheet>
      );
    case 'firmware':
      return (
        <Sheet key="firmware" label={writingTitle(model.writing.now.value)}>
          <WritingSteps />
        </Sheet>
      );
    case 'frames':
      return (
        <Sheet key="frames" label="What was said" class="wide">
          <FramesSheet />
        </Sheet>
      );
    case 'keeps':
      return (
        <Sheet key="keeps" label={`Kept before: ${keptBy(model)}`} class="wide">
          <KeepsSheet />
        </Sheet>
      );
    case 'report':
      return (
        <Sheet key="report" label="A report for asking for help" class="wide">
          <ReportSheet />
        </Sheet>
      );
    case 'new-site':
      return (
        <Sheet key="new-site" label="New site" class="wide">
          <NewSiteSheet />
        </Sheet>
      );
    case 'phases':
      return (
        <Sheet key="phases" label={`Phases: ${model.siteAtHand.value?.names.name ?? 'no site'}`} class="wide">
          <PhasesSheet />
        </Sheet>
      );
    case 'traffic':
      return (
        <Sheet key="traffic" label={`Greens by traffic: ${model.siteAtHand.value?.names.name ?? 'no site'}`}>
          <TrafficSheet />
        </Sheet>
      );
    case 'wave':
      return (
        <Sheet key="wave" label="Green wave" class="wide">
          <WaveSheet />
        </Sheet>
      );
    case 'check':
      return (
        <Sheet key="check" label="Lamp check" class="whole">
          <CheckSheet />
        </Sheet>
      );
    case 'find':
      return (
        <Sheet key="find" label="Find my wiring" class="whole">
          <FindSheet />
        </Sheet>
      );
    case 'practise':
      return (
        <Sheet key="practise" label="Practise faults" class="wide">
          <PractiseSheet />
        </Sheet>
      );
    case 'scale':
      return (
        <Sheet key="scale" label="Scale and sizes" class="wide">
          <ScaleSheet />
        </Sheet>
      );
    case 'wiring':
      return (
        <Sheet key="wiring" label="Wiring" class="whole">
          <WiringSheet />
        </Sheet>
      );
    case 'wiring-sheet':
      return (
        <Sheet key="wiring-sheet" label="Wiring sheet" class="wide">
          <WiringSheetOver />
        </Sheet>
      );
    default:
      return null;
  }
}

function keptBy({ boardAtHand, boardName }: Model): string {
  return boardAtHand.value ? boardName(boardAtHand.value.id) : 'no board';
}

interface Props {
  readonly label: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

function Sheet({ label, class: more, children }: Props) {
  const { surface } = usePanel();
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    // Something in the sheet may have taken the keyboard already.
    if (!sheet.current?.contains(before)) sheet.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <aside
      class={more ? `sheet ${more}` : 'sheet'}
      ref={sheet}
      tabIndex={-1}
      aria-label={label}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        closeSheet(surface);
      }}
    >
      <header class="row">
        <h2>{label}</h2>
        <CommandButton id="put-away">Close</CommandButton>
      </header>
      {children}
    </aside>
  );
}
