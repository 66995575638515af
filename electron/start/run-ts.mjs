// Runs one TypeScript program of the project as plain Node modules: `node electron/start/run-ts.mjs <file> [arguments]`.
import { register } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const file = path.resolve(process.argv[2] ?? '');
process.argv.splice(1, 2, file);
register('./ts-hooks.mjs', import.meta.url);
await import(pathToFileURL(file).href);
