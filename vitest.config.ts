import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Files that drive a whole app with boards that keep real time: they wait for most of it, two at once. */
const WHOLE_APP = [
  'test/panel/{main-job,look,glow,serial,bare-board,new-site,start-page,wiring-page,lamp-check,sheet-page,plan-page,tuning-page,log-page}.test.ts',
  'test/host-service/real.test.ts',
  'test/evenings/*.test.ts',
  'test/shell/{bundle,checklist,main,start}.test.ts',
];

/** Files that drive a browser or a packer, with nothing in them that keeps real time. */
const PAGES = [
  'test/a11y/{every-sheet,every-screen,lamps,listen,pictures}.test.ts',
  'test/mutations/panel.test.ts',
  'test/panel/{frames-count,broken-view,tuning-look}.test.ts',
  'test/shell/{about,menus,opened-files,pdf,preload,window-state}.test.ts',
  'test/packaging/{build,other-systems}.test.ts',
];

/**
 * Tests of plain functions on plain data: they leave nothing behind, so files share what was loaded (loading it anew for
 * each takes longer than the tests).
 */
const PURE = [
  'test/{facts,layout,signals,electrics,scale,table,interpreter,link,lampcheck,drawings,story,panel}/**/*.test.ts',
];

/** Files that wait for devices at the rate of their line: most of the time they do nothing. */
const DEVICES = ['test/chaos/*.test.ts', 'test/loader/{life,avrdude}.test.ts'];

/** All processors: by itself vitest leaves one free, which on two is half of them. */
const ALL = availableParallelism();

// Emulated hours and property tests take their time; nothing is asserted about it.
const patience = {
  testTimeout: 120_000,
  hookTimeout: 120_000,
  // What a busy computer shows late has not failed.
  expect: { poll: { timeout: 60_000, interval: 100 } },
};

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'pure',
          include: PURE,
          exclude: [...WHOLE_APP, ...PAGES],
          isolate: false,
          sequence: { groupOrder: 0 },
          maxWorkers: ALL,
          ...patience,
        },
      },
      {
        test: {
          name: 'parts',
          include: ['test/**/*.test.ts'],
          exclude: [...WHOLE_APP, ...PAGES, ...DEVICES, ...PURE],
          sequence: { groupOrder: 0 },
          maxWorkers: ALL,
          ...patience,
        },
      },
      {
        test: {
          name: 'pages',
          include: PAGES,
          sequence: { groupOrder: 1 },
          maxWorkers: ALL,
          ...patience,
        },
      },
      {
        test: {
          name: 'whole',
          include: WHOLE_APP,
          sequence: { groupOrder: 2 },
          maxWorkers: 2,
          ...patience,
        },
      },
      {
        test: {
          name: 'devices',
          include: DEVICES,
          sequence: { groupOrder: 3 },
          maxWorkers: 4,
          ...patience,
        },
      },
    ],
  },
});
