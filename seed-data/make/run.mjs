// npm run seed: makes seed-data/vocabulary and seed-data/demo-pack from the makers beside this file. Vite's runner reads the TypeScript.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const here = dirname(fileURLToPath(import.meta.url));
const { module } = await runnerImport(join(here, 'write-pack.ts'), { configFile: false, logLevel: 'error' });
const folder = join(here, '..');
const written = module.writePacks(folder);
console.log(`${written.length} files written to ${folder}`);
