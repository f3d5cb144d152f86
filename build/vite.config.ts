import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));

/** The studio's page: everything it needs lies in dist/renderer, nothing is fetched from anywhere else. */
export default defineConfig({
  root: `${root}renderer`,
  base: './',
  cacheDir: `${root}node_modules/.vite`,
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: `${root}dist/renderer`,
    emptyOutDir: true,
    target: 'es2022',
    // The page's content policy allows no inline scripts, and small pictures stay files of their own.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 4000,
  },
});
