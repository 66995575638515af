import { describe, expect, test } from 'vitest';
import { migrate } from '../../../db/driver/migrate.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import { migrations } from '../../../db/migrations/index.ts';
import { loadPack } from '../../../db/packs/load.ts';
import { expandH7, freshConnection, noon, smallPack } from './kit.ts';

describe('reading the whole atlas', () => {
  test('[A5] however many facts are read at once, the same atlas comes of it', async () => {
    const connection = await freshConnection();
    await migrate(connection, migrations);
    await loadPack(sqliteDriver(connection), smallPack, { expandCode: expandH7 }, noon.toISOString());
    const [{ facts } = { facts: 0 }] = await connection.all<{ facts: number }>('select count(*) as facts from facts');
    expect(facts).toBeGreaterThan(20);
    const whole = await readAtlas(connection);
    expect(
      whole.parts.reduce((sum, part) => sum + Object.keys(part.facts).length, 0),
      'every fact is there',
    ).toBe(facts);
    // One by one; a page that ends within a part; a last page that is full, and one that is not.
    for (const page of [1, 2, 3, 7, facts - 1, facts, facts + 1])
      expect(await readAtlas(connection, null, page), `${page} at once`).toEqual(whole);
  });
});
