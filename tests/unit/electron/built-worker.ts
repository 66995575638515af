import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { build } from 'vite';
import type { WorkerProgram } from '../../../electron/desk/staff/hand.ts';

const root = path.join(import.meta.dirname, '../../..');
/** Inside node_modules, so that what is built finds sqlite3. */
const out = path.join(root, 'node_modules/.cache/kinplate-workers', String(process.pid));

const made = new Map<string, Promise<WorkerProgram>>();

/** A worker of the desk built as the program's own is: that of `electron/desk/staff/worker.ts`, or a test's. Built once for each process. */
export const builtWorker = (source = 'electron/desk/staff/worker.ts'): Promise<WorkerProgram> => {
  const known = made.get(source) ?? buildWorker(source);
  made.set(source, known);
  return known;
};

const buildWorker = async (source: string): Promise<WorkerProgram> => {
  mkdirSync(out, { recursive: true });
  const name = path.basename(source, '.ts');
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: path.join(root, source),
      outDir: out,
      emptyOutDir: false,
      minify: false,
      rollupOptions: { output: { entryFileNames: `${name}.mjs`, chunkFileNames: `${name}-[hash].mjs` } },
    },
  });
  process.once('exit', () => rmSync(out, { recursive: true, force: true }));
  return { file: path.join(out, `${name}.mjs`) };
};
