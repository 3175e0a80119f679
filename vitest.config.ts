import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    // Emulated hours and property tests take their time; nothing is asserted about it.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
