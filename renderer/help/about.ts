/** Which chapter is about which sheet. */
import type { Sheet } from '../model/surface.ts';

const ABOUT: Readonly<Partial<Record<NonNullable<Sheet>, string>>> = {
  about: 'cautions',
  board: 'connecting',
  check: 'check',
  find: 'check',
  firmware: 'firmware',
  frames: 'log',
  keeps: 'tuning',
  layouts: 'files',
  logbook: 'log',
  'new-layout': 'files',
  'save-as': 'files',
  sets: 'tuning',
  differs: 'tuning',
  changes: 'tuning',
  'new-site': 'plan',
  phases: 'tuning',
  practise: 'check',
  report: 'log',
  scale: 'wiring',
  traffic: 'tuning',
  wave: 'tuning',
  wiring: 'wiring',
  'wiring-sheet': 'wiring',
};

/** Id of a chapter; null for the help itself. */
export function chapterOf(sheet: NonNullable<Sheet>): string | null {
  return sheet === 'help' ? null : (ABOUT[sheet] ?? 'begin');
}
