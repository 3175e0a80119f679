import { defineConfig } from 'vitest/config';

/** Files that drive a browser or a whole app: they want the computer to themselves. */
const WHOLE_APP = [
  'test/panel/{main-job,look,glow,serial,bare-board,new-site,start-page,wiring-page,lamp-check,sheet-page,plan-page,tuning-page,tuning-look,log-page}.test.ts',
  'test/host-service/real.test.ts',
  'test/evenings/*.test.ts',
  'test/mutations/panel.test.ts',
  'test/panel/{frames-count,broken-view}.test.ts',
  'test/shell/*.test.ts',
  'test/packaging/{build,other-systems}.test.ts',
  'test/a11y/{every-screen,lamps,listen,pictures}.test.ts',
];

/** Files that wait for devices at the rate of their line: most of the time they do nothing. */
const DEVICES = ['test/chaos/*.test.ts', 'test/loader/{life,avrdude}.test.ts'];

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
          name: 'parts',
          include: ['test/**/*.test.ts'],
          exclude: [...WHOLE_APP, ...DEVICES],
          sequence: { groupOrder: 0 },
          ...patience,
        },
      },
      {
        test: {
          name: 'whole',
          include: WHOLE_APP,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          ...patience,
        },
      },
      {
        test: { name: 'devices', include: DEVICES, sequence: { groupOrder: 2 }, ...patience },
      },
    ],
  },
});
