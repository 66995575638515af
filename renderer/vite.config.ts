import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));

/** The window's bundle. Relative addresses, so that a custom scheme and the loopback host serve the same files. */
export default defineConfig({
  root: here,
  base: './',
  plugins: [react()],
  build: {
    outDir: fileURLToPath(new URL('../build/renderer', import.meta.url)),
    emptyOutDir: true,
    // Fonts and icons stay files: the content security policy allows no data: fonts.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1200,
  },
});
