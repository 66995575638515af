import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Entries } from '../../../db/atlas/lists.ts';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import { migrate } from '../../../db/driver/migrate.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import { inspectPack, readPack } from '../../../db/index.ts';
import { migrations } from '../../../db/migrations/index.ts';
import type { Fault } from '../../../db/read/faults.ts';
import type { Family, Model } from '../../../reasoner/index.ts';
import { copyOfSmallPack, expandH7, filledStore, freshConnection, freshFolder, freshStore, troubleIn, valueIn } from './kit.ts';

type Models = Record<string, unknown>[];
type Rows = string[][];
interface Files {
  readonly models: Models;
  readonly makers: Record<string, unknown>[];
  readonly families: Record<string, unknown>[];
  /** Rows of allowed.csv: model, slot, part, role. */
  allowed: Rows;
}

/** The small pack with its models, makers, families and lists changed. */
const packWith = async (change: (files: Files) => void): Promise<string> => {
  const folder = await copyOfSmallPack();
  const json = async (file: string) => JSON.parse(await readFile(join(folder, file), 'utf8')) as Models;
  const [header = '', ...rows] = (await readFile(join(folder, 'allowed.csv'), 'utf8')).trim().split('\n');
  const files: Files = {
    models: await json('models.json'),
    makers: await json('makers.json'),
    families: await json('families.json'),
    allowed: rows.map((row) => row.split(',')),
  };
  change(files);
  for (const name of ['models', 'makers', 'families'] as const)
    await writeFile(join(folder, `${name}.json`), `${JSON.stringify(files[name], null, 2)}\n`);
  await writeFile(join(folder, 'allowed.csv'), `${[header, ...files.allowed.map((row) => row.join(','))].join('\n')}\n`);
  return folder;
};

const faultsOf = async (folder: string): Promise<readonly Fault[]> =>
  (troubleIn(await readPack(folder, { expandCode: expandH7 })).all ?? []) as readonly Fault[];
const warningsOf = async (folder: string) => valueIn(await inspectPack(folder, { expandCode: expandH7 })).warnings;
const rowOf = async (folder: string, file: string, needle: string): Promise<number> => {
  const text = await readFile(join(folder, file), 'utf8');
  return text.slice(0, text.indexOf(needle)).split('\n').length;
};
const slots = async (): Promise<Entries['slots']> =>
  JSON.parse(await readFile(join(await copyOfSmallPack(), 'slots.json'), 'utf8')) as Entries['slots'];
const idOf = (models: Models, index: number): string => String(models[index]?.id);

describe('[A7] a pack says where a list is not whole', () => {
  test('[A7] it is read, kept, read back, and exported the same to the byte', async () => {
    const folder = await packWith(({ models }) => {
      (models[0] as Models[number]).openEnded = ['compressor-wheel', 'compressor-housing'];
    });
    expect(valueIn(await readPack(folder, { expandCode: expandH7 })).models[0]?.openEnded).toEqual([
      'compressor-wheel',
      'compressor-housing',
    ]);
    const store = await filledStore();
    valueIn(await store.packs.load(folder, { anyEdition: true }));
    const { models } = await store.atlas.read();
    expect(models[0]?.openEnded).toEqual(['compressor-wheel', 'compressor-housing']);
    expect(models.slice(1).some((model) => 'openEnded' in model)).toBe(false);
    // Its page says so, and of a core or housing slot of which it lists nothing too.
    const silent = (at: number) => {
      const listed = new Set(models[at]?.allowed.map(({ slot }) => slot));
      return new Set(
        (models[at]?.openEnded ?? []).concat(atlasSlots.flatMap(({ id, group }) => (group === 'plate' || listed.has(id) ? [] : [id]))),
      );
    };
    const { slots: atlasSlots } = await store.atlas.read();
    for (const at of models.keys()) {
      const { openEnded } = valueIn(await store.graph.model((models[at] as (typeof models)[number]).id));
      expect(openEnded, models[at]?.name).toEqual(atlasSlots.map(({ id }) => id).filter((id) => silent(at).has(id)));
    }

    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    expect(valueIn(await readPack(out, { expandCode: expandH7 }))).toEqual(valueIn(await readPack(folder, { expandCode: expandH7 })));
    const again = join(freshFolder(), 'again');
    const second = await freshStore();
    valueIn(await second.packs.load(out));
    valueIn(await second.packs.export('small', again));
    expect(await readFile(join(again, 'models.json'), 'utf8')).toBe(await readFile(join(out, 'models.json'), 'utf8'));

    valueIn(await store.packs.remove('small'));
    expect((await store.atlas.read()).models).toEqual([]);
  });

  test('[A7] a filled database from before comes with whole lists, and its slots cannot go while a list is open at them', async () => {
    const connection = await freshConnection();
    const before = migrations.findIndex(({ name }) => name === 'open lists');
    await migrate(connection, migrations.slice(0, before));
    const fixture = join(import.meta.dirname, 'fixtures', `filled-${String(before).padStart(4, '0')}.sql`);
    await connection.script(`pragma foreign_keys = off; begin; ${await readFile(fixture, 'utf8')} commit; pragma foreign_keys = on;`);
    await migrate(connection, migrations);
    const { models } = await readAtlas(connection);
    expect(models.length).toBeGreaterThan(3);
    expect(models.some((model) => 'openEnded' in model)).toBe(false);

    const open = (slot: string) =>
      connection.run(`insert into open_lists (model, slot, position) select n, ?, 0 from models order by n limit 1`, [slot]);
    await connection.run(
      `insert into slots (id, name, part_group, stage, swap_minutes) select 'silencer', 'silencer', 'housing', id, 1 from stages limit 1`,
    );
    await open('silencer');
    expect((await readAtlas(connection)).models[0]?.openEnded).toEqual(['silencer']);
    await expect(open('silencer')).rejects.toThrow(/UNIQUE/);
    await expect(open('nowhere')).rejects.toThrow(/FOREIGN KEY/);
    await expect(connection.run(`delete from slots where id = 'silencer'`)).rejects.toThrow(/FOREIGN KEY/);
    // They go with their model, as a new edition’s rows do.
    await connection.run('delete from sits');
    await connection.run('update models set pattern_of = null');
    await connection.run('delete from models');
    expect(await connection.all('select * from open_lists')).toEqual([]);
  });

  test.each<[string, unknown, string, string]>([
    ['a slot there is not', ['bearing-set', 'nowhere'], '[0].openEnded[1]', 'the id of a slot'],
    ['the nameplate', ['nameplate'], '[0].openEnded[0]', 'a slot of the core or a housing'],
    ['a slot twice', ['bearing-set', 'bearing-set'], '[0].openEnded[1]', 'every slot once'],
    ['no slot', [], '[0].openEnded', 'at least 1'],
    ['a word where a list should be', 'bearing-set', '[0].openEnded', 'a list'],
  ])('[A7] %s is a fault with its place', async (_, openEnded, column, expected) => {
    const folder = await packWith(({ models }) => {
      (models[0] as Models[number]).openEnded = openEnded;
    });
    const found = await faultsOf(folder);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ file: 'models.json', column });
    expect(found[0]?.expected).toContain(expected);
    expect(found[0]?.row).toBe(
      (await rowOf(folder, 'models.json', '"openEnded"')) + (column.endsWith(']') ? Number(column.at(-2)) + 1 : 0),
    );
  });
});

describe('[A7] a model without a naming slot is a fault of the pack', () => {
  const fault = (index: number) => ({ file: 'models.json', column: `[${index}]` });

  test('[A7] one that lists nothing', async () => {
    let id = '';
    const folder = await packWith((files) => {
      id = idOf(files.models, 1);
      files.allowed = files.allowed.filter(([model]) => model !== id);
    });
    const found = await faultsOf(folder);
    expect(found).toMatchObject([{ ...fault(1), row: (await rowOf(folder, 'models.json', `"id": "${id}"`)) - 1 }]);
    expect(found[0]?.found).toContain(id);
    expect(found[0]?.expected).toContain('names or option');
  });

  test('[A7] one with service parts alone, but not one with an option', async () => {
    const only = (role: string) =>
      packWith((files) => {
        const id = idOf(files.models, 1);
        files.allowed = files.allowed
          .filter(([model, slot]) => model !== id || slot === 'compressor-wheel')
          .map((row) => (row[0] === id ? [...row.slice(0, 3), role] : row));
      });
    expect(await faultsOf(await only('service'))).toMatchObject([fault(1)]);
    valueIn(await readPack(await only('option'), { expandCode: expandH7 }));
    valueIn(await readPack(await only('names'), { expandCode: expandH7 }));
  });

  test('[A7] a nameplate counts only where the maker has the plate rule', async () => {
    const plateAlone = (plateRule: boolean) =>
      packWith((files) => {
        const id = idOf(files.models, 0);
        files.allowed = files.allowed.filter(([model, slot]) => model !== id || slot === 'nameplate');
        (files.makers[0] as Models[number]).plateRule = plateRule;
      });
    expect(await faultsOf(await plateAlone(false))).toMatchObject([fault(0)]);
    valueIn(await readPack(await plateAlone(true), { expandCode: expandH7 }));
  });

  test('[A7] a pattern group has no maker, so that no plate names what it makes', async () => {
    const folder = await packWith((files) => {
      const pattern = idOf(files.models, files.models.length - 1);
      files.allowed = files.allowed.filter(([model]) => model !== pattern);
      const plate = files.allowed.find(([, slot]) => slot === 'nameplate')?.[2];
      files.allowed.push([pattern, 'nameplate', String(plate), 'names']);
    });
    expect(await faultsOf(folder)).toMatchObject([fault(4)]);
  });

  test('[A7] nothing is said of it while the lists themselves cannot be read', async () => {
    const folder = await packWith((files) => {
      files.allowed = files.allowed.map((row) => [...row, 'a cell too many']);
    });
    const found = await faultsOf(folder);
    expect(new Set(found.map(({ file }) => file))).toEqual(new Set(['allowed.csv']));
  });
});

describe('[A7] what a sound pack should know of itself', () => {
  test('[A7] a core slot a model says nothing of, and a housing, each with what follows', async () => {
    let id = '';
    const folder = await packWith((files) => {
      id = idOf(files.models, 0);
      files.allowed = files.allowed.filter(([model, slot]) => model !== id || slot === 'compressor-wheel' || slot === 'nameplate');
    });
    const row = (await rowOf(folder, 'models.json', `"id": "${id}"`)) - 1;
    const told = (await warningsOf(folder)).filter((warning) => warning.column === '[0]');
    expect(told).toMatchObject([
      { file: 'models.json', row, code: 'pack-warning' },
      { file: 'models.json', row, code: 'pack-warning' },
    ]);
    expect(told[0]?.sentence).toContain('lists nothing for the bearing housing and the bearing set');
    expect(told[0]?.sentence).toContain('none of its names can ever stand');
    expect(told[1]?.sentence).toContain('lists nothing for the compressor housing');
    expect(told[1]?.sentence).toContain('no name that speaks of that housing can ever stand');
    expect(told.map(({ sentence }) => sentence).join()).not.toContain('nameplate');
  });

  test('[A7] a model that lists something for every core and housing slot is not spoken of', async () => {
    const core = (await slots()).filter(({ group }) => group !== 'plate').map(({ id }) => id);
    let whole: readonly number[] = [];
    const folder = await packWith(({ models, allowed }) => {
      whole = models.flatMap(({ id }, index) =>
        core.every((slot) => allowed.some((row) => row[0] === id && row[1] === slot)) ? [index] : [],
      );
    });
    expect(whole.length).toBeGreaterThan(0);
    const spoken = (await warningsOf(folder)).filter(({ file }) => file === 'models.json').map(({ column }) => column);
    for (const index of whole) expect(spoken).not.toContain(`[${index}]`);
  });

  test('[A7] a family whose models have no naming slot in common', async () => {
    const folder = await packWith((files) => {
      const [a, b] = [idOf(files.models, 0), idOf(files.models, 1)];
      files.allowed = files.allowed.filter(
        ([model, slot]) => (model !== a || slot !== 'bearing-housing') && (model !== b || slot === 'bearing-housing'),
      );
    });
    const told = (await warningsOf(folder)).filter(({ file }) => file === 'families.json');
    expect(told).toMatchObject([{ column: '[0]', row: (await rowOf(folder, 'families.json', '"id"')) - 1 }]);
    expect(told[0]?.sentence).toContain('no naming slot in common');
    // One slot that both name is enough.
    const common = await packWith((files) => {
      const b = idOf(files.models, 1);
      files.allowed = files.allowed.filter(([model, slot]) => model !== b || slot === 'bearing-housing');
    });
    expect((await warningsOf(common)).filter(({ file }) => file === 'families.json')).toEqual([]);
  });

  test('[A7] a slot in which one model names and the other only serves is not in common', async () => {
    const folder = await packWith((files) => {
      const [a, b] = [idOf(files.models, 0), idOf(files.models, 1)];
      files.allowed = files.allowed
        .filter(
          ([model, slot]) => (model !== a && model !== b) || slot === 'bearing-housing' || (model === b && slot === 'compressor-wheel'),
        )
        .map((row) => (row[0] === b && row[1] === 'bearing-housing' ? [...row.slice(0, 3), 'service'] : row));
    });
    expect((await warningsOf(folder)).filter(({ file }) => file === 'families.json')).toHaveLength(1);
  });

  test('[A7] another pack’s models of the family are asked too', async () => {
    const folder = await copyOfSmallPack();
    const [family] = JSON.parse(await readFile(join(folder, 'families.json'), 'utf8')) as Family[];
    const besideWith = (slot: string) => async () => ({
      ...emptyAtlas,
      models: [
        { id: 'beside', family: family?.id, patternOf: null, allowed: [{ slot, part: 'beside-part', role: 'names' }] } as unknown as Model,
      ],
    });
    const told = async (slot: string) =>
      valueIn(await inspectPack(folder, { expandCode: expandH7, beside: besideWith(slot) })).warnings.filter(
        ({ file }) => file === 'families.json',
      );
    expect(await told('bearing-housing')).toEqual([]);
    expect(await told('bearing-set')).toMatchObject([{ column: '[0]', found: expect.stringContaining('the 3 models') }]);
  });

  test('[A7] the warnings are told at loading too, and load all the same', async () => {
    const folder = await packWith((files) => {
      const id = idOf(files.models, 0);
      files.allowed = files.allowed.filter(([model, slot]) => model !== id || slot === 'compressor-wheel');
    });
    const store = await freshStore();
    const loaded = valueIn(await store.packs.load(folder));
    expect(loaded.changed).toBe(true);
    expect(loaded.warnings).toEqual(await warningsOf(folder));
  });
});
