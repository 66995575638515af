// A loader hook: Node 20 reads no TypeScript, so its types are taken out on the way in. Imports here carry `.ts`, so nothing else is needed.
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { transformWithOxc } from 'vite';

export const load = async (url, context, next) => {
  if (!url.endsWith('.ts')) return next(url, context);
  const file = fileURLToPath(url);
  const { code } = await transformWithOxc(await readFile(file, 'utf8'), file, { target: 'node20' });
  return { format: 'module', source: code, shortCircuit: true };
};
