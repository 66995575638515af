import { fileURLToPath } from 'node:url';
import { defineConfig, type UserConfig } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const shared = { outDir: fileURLToPath(new URL('../build', import.meta.url)), emptyOutDir: false, minify: false } as const;

/** Everything but the window's bundle (renderer/vite.config.ts): one `--mode` for each thing that is built. */
const builds: Readonly<Record<string, UserConfig>> = {
  /** The node side, one file for each way in. Packages stay outside and are read from node_modules. */
  desk: {
    ssr: { external: ['electron'] },
    build: {
      ...shared,
      ssr: true,
      target: 'node20',
      rolldownOptions: {
        input: {
          main: 'electron/hosts/electron/main.ts',
          host: 'electron/hosts/loopback/host.ts',
          'desk-worker': 'electron/desk/staff/worker.ts',
          kinplate: 'electron/command-line/kinplate.ts',
        },
        output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: 'desk/[name]-[hash].js' },
      },
    },
  },

  /** The preload script. A sandboxed preload can load nothing but itself, and only as CommonJS. */
  preload: {
    build: {
      ...shared,
      target: 'chrome120',
      lib: { entry: 'electron/hosts/electron/preload/preload.ts', formats: ['cjs'], fileName: () => 'preload.cjs' },
      rolldownOptions: { external: ['electron'] },
    },
  },

  /** What the loopback host puts before the window's own script, so that `window.desk` is there as under Electron. */
  page: {
    build: {
      ...shared,
      target: 'chrome120',
      lib: { entry: 'electron/hosts/loopback/page/desk.ts', formats: ['iife'], name: 'kinplatePage', fileName: () => 'page-desk.js' },
    },
  },
};

export default defineConfig(({ mode }) => {
  const config = builds[mode];
  if (config === undefined) throw new Error(`say what to build: --mode ${Object.keys(builds).join(' | ')}`);
  return { ...config, root, publicDir: false, logLevel: 'warn' };
});
