import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/*
 * `npm run bench`. Measured is what runs in the desk: the bench is bundled as the desk is, not run through the development server
 * that runs this file. KINPLATE_BENCH_SCALES=1,10 chooses other sizes of the atlas than 1, 3, 10, … 1000 times
 * the demo pack (a series ends after a step of a minute); KINPLATE_BENCH_PEERS=no leaves clingo and Z3 out;
 * KINPLATE_BENCH_PARTS=tree,apart,key runs some of its parts only;
 * the part `largest` takes half an hour and twelve gigabytes, and runs only when it is asked for;
 * KINPLATE_BENCH_ATLASES=folder keeps the atlases the part `counter` loads there instead of among temporary files;
 * KINPLATE_BENCH_SHEETS=29 puts so many of the sample sheets to them (4 unless told otherwise: Z3 takes minutes for some).
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const outDir = fileURLToPath(new URL('../../build/bench', import.meta.url));

await build({
  root,
  configFile: false,
  logLevel: 'warn',
  publicDir: false,
  build: {
    outDir,
    emptyOutDir: true,
    minify: false,
    ssr: true,
    target: 'node20',
    // The worker and the window of the part `host`, and what the parts `largest` and `counter` start, are programs of their own; what they share lies beside them.
    rolldownOptions: {
      input: [
        ...['measure', 'largest', 'wide-worker', 'asking', 'counter/desk-memory'].map((name) => `tests/bench/${name}.ts`),
        'electron/desk/staff/worker.ts',
      ],
      output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: '[name].js' },
    },
  },
});
const ran = spawnSync(process.execPath, ['--max-old-space-size=6144', `${outDir}/measure.js`], { cwd: root, stdio: 'inherit' });
process.exitCode = ran.status ?? 1;
