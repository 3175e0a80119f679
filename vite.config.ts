import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/** The panel: `npx vite build` writes it to dist/panel, from where both shells serve it. */
export default defineConfig({
  root: fileURLToPath(new URL('./renderer', import.meta.url)),
  base: './',
  build: {
    outDir: fileURLToPath(new URL('./dist/panel', import.meta.url)),
    emptyOutDir: true,
    target: 'es2023',
    // Fonts and styles stay files: the content security policy allows nothing inline.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // The panel comes from the same computer: one file of this size is there at once.
    chunkSizeWarningLimit: 1500,
  },
});
