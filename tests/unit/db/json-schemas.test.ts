import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { publishedSchemas } from '../../../db/packs/published-schemas.ts';

const folder = join(import.meta.dirname, '../../../db/packs/schemas');

test.each([...publishedSchemas()])('the published %s is the one packs are read by', async (name, text) => {
  await expect(text).toMatchFileSnapshot(join(folder, name));
});

test('nothing else is published', async () => {
  expect((await readdir(folder)).sort()).toEqual([...publishedSchemas().keys()].sort());
});
