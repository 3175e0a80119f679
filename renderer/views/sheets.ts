/** What each sheet is called and shows. */
import type { ComponentType } from 'preact';
import { AboutSheet } from '../about/about-sheet.tsx';
import { BoardPanel } from '../board/board-panel.tsx';
import { CheckSheet } from '../check/check-sheet.tsx';
import { LayoutsSheet } from '../files/layouts-sheet.tsx';
import { SaveAsSheet } from '../files/save-as-sheet.tsx';
import { FindSheet } from '../find/find-sheet.tsx';
import { HelpSheet } from '../help/help-sheet.tsx';
import { KeepsSheet } from '../keeps/keeps-sheet.tsx';
import { LogbookSheet } from '../log/logbook-sheet.tsx';
import type { Model } from '../model/model.ts';
import type { Sheet } from '../model/surface.ts';
import { NewSiteSheet } from '../new-site/new-site-sheet.tsx';
import { PhasesSheet } from '../phases/phases-sheet.tsx';
import { PractiseSheet } from '../practise/practise-sheet.tsx';
import { FramesSheet } from '../said/frames-sheet.tsx';
import { ReportSheet } from '../said/report-sheet.tsx';
import { ScaleSheet } from '../scale/scale-sheet.tsx';
import { WiringSheetOver } from '../sheet/wiring-sheet.tsx';
import { StartSheet } from '../start/start-sheet.tsx';
import { TrafficSheet } from '../traffic/traffic-sheet.tsx';
import { ChangesSheet } from '../tuning/changes-sheet.tsx';
import { DiffersSheet } from '../tuning/differs-sheet.tsx';
import { SetsSheet } from '../tuning/sets-sheet.tsx';
import { WaveSheet } from '../wave/wave-sheet.tsx';
import { WiringSheet } from '../wiring/wiring-sheet.tsx';
import { WritingSteps, writingTitle } from '../writing/writing-sheet.tsx';

export interface SheetParts {
  readonly label: string | ((model: Model) => string);
  /** `wide`: beside a narrow plan; `whole`: over all of the view. */
  readonly size?: 'wide' | 'whole';
  readonly Body: ComponentType;
}

export const SHEETS: Readonly<Record<NonNullable<Sheet>, SheetParts>> = {
  about: { label: 'About and licences', size: 'wide', Body: AboutSheet },
  board: { label: 'Board and port', Body: BoardPanel },
  check: { label: 'Lamp check', size: 'whole', Body: CheckSheet },
  find: { label: 'Find my wiring', size: 'whole', Body: FindSheet },
  firmware: { label: ({ writing }) => writingTitle(writing.now.value), Body: WritingSteps },
  frames: { label: 'What was said', size: 'wide', Body: FramesSheet },
  help: { label: 'Help', size: 'wide', Body: HelpSheet },
  keeps: { label: (model) => `Kept before: ${keptBy(model)}`, size: 'wide', Body: KeepsSheet },
  layouts: { label: 'My layouts', size: 'wide', Body: LayoutsSheet },
  logbook: { label: 'Logbook', size: 'wide', Body: LogbookSheet },
  'new-layout': { label: 'A layout of your own', size: 'whole', Body: StartSheet },
  'new-site': { label: 'New site', size: 'wide', Body: NewSiteSheet },
  phases: { label: (model) => `Phases: ${siteName(model)}`, size: 'wide', Body: PhasesSheet },
  practise: { label: 'Practise faults', size: 'wide', Body: PractiseSheet },
  report: { label: 'A report for asking for help', size: 'wide', Body: ReportSheet },
  'save-as': { label: 'Save the layout', Body: SaveAsSheet },
  scale: { label: 'Scale and sizes', size: 'wide', Body: ScaleSheet },
  sets: { label: 'Two sets of times, A and B', size: 'wide', Body: SetsSheet },
  differs: { label: 'What differs: planned, running, kept', size: 'wide', Body: DiffersSheet },
  changes: { label: 'Changed times of this session', size: 'wide', Body: ChangesSheet },
  traffic: { label: (model) => `Greens by traffic: ${siteName(model)}`, Body: TrafficSheet },
  wave: { label: 'Green wave', size: 'wide', Body: WaveSheet },
  wiring: { label: 'Wiring', size: 'whole', Body: WiringSheet },
  'wiring-sheet': { label: 'Wiring sheet', size: 'wide', Body: WiringSheetOver },
};

function siteName({ siteAtHand }: Model): string {
  return siteAtHand.value?.names.name ?? 'no site';
}

function keptBy({ boardAtHand, boardName }: Model): string {
  return boardAtHand.value ? boardName(boardAtHand.value.id) : 'no board';
}
