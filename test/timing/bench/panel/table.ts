/** What the bench says of the panel, for the README. */
import type { Results } from '../results.ts';

type Shown = (key: string) => string;

/** Rows of a table of two columns; `busy`: as the other parts say that the computer had other work. */
export function panelRows(value: Shown, busy: string): string[] {
  return [
    `| panel, 32 sites and 128 live lamps, 1280 x 720: script a frame, 95th percentile (room, layout, desk) | ${['room', 'layout', 'desk'].map((view) => value(`frame-${view}`)).join(', ')} ms${busy} |`,
    `| elements touched for each lamp that changes (the same views) | ${['room', 'layout', 'desk'].map((view) => value(`touched-${view}`)).join(', ')} |`,
    `| host: from its start until its address can be opened | ${value('start-host')} ms${busy} |`,
    `| panel: from opening it until a dial can be turned, median of 7 | ${value('start-panel')} ms${busy} |`,
    `| memory of the page after 10 minutes, 2 hours, 4 hours of the example with a nudge every 2 minutes | ${['begin', 'middle', 'end'].map((at) => value(`page-${at}`)).join(', ')} MB |`,
    `| the same of the host, the emulated board included | ${['begin', 'middle', 'end'].map((at) => value(`host-${at}`)).join(', ')} MB |`,
    `| nodes and listeners of the page after 10 minutes; 4 hours | ${value('nodes-begin')}, ${value('listeners-begin')}; ${value('nodes-end')}, ${value('listeners-end')} |`,
  ];
}

/** Whether all of it was measured. */
export function hasPanel(results: Results): boolean {
  return ['frame-desk', 'start-panel', 'listeners-end'].every((key) => results.list.some((it) => it.key === key));
}
