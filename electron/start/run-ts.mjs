// Runs one TypeScript program of the project, as `node electron/start/run-ts.mjs <file> [arguments]`. Node 20 does not read
// TypeScript itself; Vite, which is here for the build, does.
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { createServer, createServerModuleRunner } from 'vite';
import { root } from './sources.mjs';

const file = path.resolve(process.argv[2] ?? '');
process.argv.splice(1, 2, file);
const server = await createServer({
  root,
  configFile: false,
  logLevel: 'warn',
  server: { middlewareMode: true, hmr: false, watch: null, ws: false },
  optimizeDeps: { noDiscovery: true },
  appType: 'custom',
});
try {
  await createServerModuleRunner(server.environments.ssr, { hmr: false }).import(pathToFileURL(file).href);
} finally {
  await server.close();
}
