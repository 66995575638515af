import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { builtWorker } from './built-worker.ts';

test('[B1] the host’s own thread loads neither the contract’s schemas nor the store', async () => {
  const host = await builtWorker('electron/hosts/loopback/host.ts');
  const text = readFileSync(host.file, 'utf8');
  expect(text).toContain('Kinplate is at');
  for (const name of ['zod', 'sqlite3', 'drizzle-orm']) expect(text).not.toContain(`"${name}`);
});
