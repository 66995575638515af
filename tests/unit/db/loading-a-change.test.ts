import { cp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { getTableName } from 'drizzle-orm';
import { describe, expect, onTestFinished, test } from 'vitest';
import { columnsOf } from '../../../db/atlas/columns.ts';
import { everyList, partList } from '../../../db/atlas/lists.ts';
import { packOf } from '../../../db/changes/cells-of.ts';
import { applyTo, changeBetween, type Effect, reverse } from '../../../db/changes/change.ts';
import { effectOf, headOf } from '../../../db/changes/journal.ts';
import type { Connection } from '../../../db/driver/connection.ts';
import type { Batch, Driver, Statement } from '../../../db/driver/driver.ts';
import { migrate } from '../../../db/driver/migrate.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { writePlanned } from '../../../db/driver/write-planned.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import { searchAtlas } from '../../../db/graph/search.ts';
import { migrations } from '../../../db/migrations/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { danglingWithout } from '../../../db/packs/dangling.ts';
import { packFrom } from '../../../db/packs/export.ts';
import { heldIn, numbersIn, readNumbering } from '../../../db/packs/ground.ts';
import { cellsOfHeld, readHeld } from '../../../db/packs/held.ts';
import { type LoadOptions, loadPack, planLoads } from '../../../db/packs/load.ts';
import { goingIn } from '../../../db/packs/pack-rows.ts';
import { removePack } from '../../../db/packs/remove.ts';
import { TroubleError } from '../../../db/trouble.ts';
import type { Atlas } from '../../../reasoner/index.ts';
import { httpDriver, httpStore } from './http-store.ts';
import { demoPack, expandCode, expandH7, freshConnection, freshFolder, freshStore, noon, smallPack, valueIn } from './kit.ts';

const fresh = async (): Promise<Connection> => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  return connection;
};

const load = (driver: Driver, folder: string, options: LoadOptions = {}) =>
  loadPack(driver, folder, { expandCode: expandH7, ...options }, noon.toISOString());

type Edit = (text: string) => string;

/** A copy of a pack under another edition, its files changed by hand. */
const edited = async (from: string, edition: string, edits: Readonly<Record<string, Edit>> = {}): Promise<string> => {
  const folder = join(freshFolder(), 'pack');
  await cp(from, folder, { recursive: true });
  const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8'));
  await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition }));
  for (const [file, edit] of Object.entries(edits)) {
    const was = await readFile(join(folder, file), 'utf8');
    const is = edit(was);
    expect(is, `${file} was to be changed`).not.toBe(was);
    await writeFile(join(folder, file), is);
  }
  return folder;
};

/** A driver that keeps what is written. */
const watched = (driver: Driver): { readonly driver: Driver; readonly written: Statement[] } => {
  const written: Statement[] = [];
  const write = (batch: Batch) => {
    const statements = function* () {
      for (const statement of batch.statements) {
        written.push(statement);
        yield statement;
      }
    };
    return driver.write({ ...batch, statements: statements() });
  };
  return { driver: { ...driver, write }, written };
};

/** How many rows each statement writes or takes away, by table. */
const rowsWritten = (written: readonly Statement[]): Readonly<Record<string, number>> => {
  const rows: Record<string, number> = {};
  for (const { sql } of written) {
    const table = /^(?:insert into|delete from|update) "?(\w+)"?/i.exec(sql)?.[1] ?? sql;
    rows[table] = (rows[table] ?? 0) + (sql.match(/\([?, ]+\)/g) ?? ['']).length;
  }
  return rows;
};

const bytesOf = async (connection: Connection, id: string): Promise<string> =>
  [...canonicalText(await packFrom(connection, id))].flat().join('\n');

/** Everything the lists keep, without numbers and places, which say nothing but which row is meant and in which order. */
const kept = async (connection: Pick<Driver, 'all'>): Promise<unknown> => {
  const names = new Map<string, Map<number, string>>();
  for (const table of ['parts', 'models', 'features'])
    names.set(table, new Map((await connection.all<{ n: number; id: string }>(`select n, id from ${table}`)).map(({ n, id }) => [n, id])));
  const rows: unknown[] = [];
  for (const list of [...everyList, partList]) {
    const { table, keys } = columnsOf(list.table);
    const order = keys.includes('position') ? 'pack, position' : 'id';
    rows.push([
      table,
      (await connection.all<Record<string, unknown>>(`select * from ${table} order by ${order}`)).map(
        ({ n: _n, position: _at, pattern_of, supersedes, ...row }) => ({
          ...row,
          pattern_of: typeof pattern_of === 'number' ? names.get(table)?.get(pattern_of) : null,
          supersedes: typeof supersedes === 'number' ? names.get(table)?.get(supersedes) : supersedes,
        }),
      ),
    ]);
  }
  rows.push(await connection.all('select pack, kind, id from pack_terms order by pack, kind, position'));
  rows.push(
    await connection.all(
      'select m.id as model, p.id as part, s.role, s.pack from sits s join models m on m.n = s.model join parts p on p.n = s.part order by 1, 2',
    ),
  );
  rows.push(await connection.all('select pack, node_kind, node_id, field, term, compact from search_terms order by 1, 2, 3, 4, 5'));
  rows.push(await connection.all('select id, origin, pack, body from sheets order by pack, position'));
  rows.push(await connection.all('select id, title, edition, hash, content from packs order by id'));
  return rows;
};

const reversedRows: Edit = (text) => {
  const [header = '', ...rows] = text.trimEnd().split('\n');
  return `${[header, ...rows.reverse()].join('\n')}\n`;
};
const reversedList: Edit = (text) => JSON.stringify((JSON.parse(text) as unknown[]).reverse());

/** Editions of the small pack, each of which must be loadable over any other. */
const editions: readonly Readonly<Record<string, Edit>>[] = [
  {},
  { 'facts.csv': (text) => text.replace('cw-tern-4,cw-blades,8', 'cw-tern-4,cw-blades,9') },
  { 'parts.csv': reversedRows, 'makers.json': reversedList, 'sources.json': (text) => text.replace('The shop book', 'The new shop book') },
  {
    'parts.csv': (text) => text.replace('Tern nameplate', 'Tern plate').replace(/^ch-rowan,.*\n/m, ''),
    'facts.csv': (text) => text.replace(/^ch-rowan,.*\n/gm, ''),
    'allowed.csv': (text) => text.replace(/^.*ch-rowan.*\n/m, ''),
    'sheets/planned-01.json': (text) => text.replace('"ch-rowan"', '"ch-tern"'),
  },
  {
    'parts.csv': (text) =>
      text.replace(/^(bh-tern,.*\n)/m, '$1bh-tern-b,bearing-housing,Tern housing of the second kind,merrowby,,,bh-tern,shop-book\n'),
  },
  { 'features.json': reversedList, 'allowed.csv': (text) => text.replace(',option\n', ',service\n') },
  { 'makers.json': (text) => text.replace('"plateRule": true', '"plateRule": false') },
];

describe('[H2] a pack that is loaded', () => {
  test('[H2] a newer edition that alters one fact writes that fact, and what every change writes', async () => {
    const connection = await fresh();
    await load(sqliteDriver(connection), smallPack);
    const { driver, written } = watched(sqliteDriver(connection));
    const newer = await edited(smallPack, '2026-04-01', editions[1]);
    const loaded = await load(driver, newer);
    expect(rowsWritten(written)).toEqual({ facts: 1, packs: 1, journal: 1, journal_effects: 1 });
    expect(loaded.change).toEqual([
      { of: 'pack', added: 0, altered: 1, removed: 0 },
      { of: 'parts.facts', added: 0, altered: 1, removed: 0 },
    ]);
    const alone = await fresh();
    await load(sqliteDriver(alone), newer);
    expect(await bytesOf(connection, 'small')).toBe(await bytesOf(alone, 'small'));
  });

  test('[H2] a part put in between others moves none of them', async () => {
    const connection = await fresh();
    await load(sqliteDriver(connection), smallPack);
    const { driver, written } = watched(sqliteDriver(connection));
    await load(driver, await edited(smallPack, '2026-04-01', editions[4]));
    expect(rowsWritten(written)).toEqual({ parts: 1, search_terms: 1, packs: 1, journal: 1, journal_effects: 1 });
    expect((await readAtlas(connection)).parts.map(({ id }) => id as string)).toContain('bh-tern-b');
  });

  test('[H2] where an atlas of before has no room between its rows, they make some', async () => {
    const connection = await fresh();
    await load(sqliteDriver(connection), smallPack);
    for (const table of ['parts', 'models', 'makers', 'families', 'generations', 'sheets', 'pack_terms'])
      await connection.run(`update ${table} set position = position / 1024 - 1`);
    const newer = await edited(smallPack, '2026-04-01', editions[4]);
    await load(sqliteDriver(connection), newer);
    const alone = await fresh();
    await load(sqliteDriver(alone), newer);
    expect(await kept(connection)).toEqual(await kept(alone));
    expect(JSON.stringify(await readAtlas(connection))).toBe(JSON.stringify(await readAtlas(alone)));
  });

  test('[H2] whatever edition was there before, what is kept is what is kept of the pack alone', async () => {
    const folders = await Promise.all(editions.map((edits, index) => edited(smallPack, `2026-04-0${index + 1}`, edits)));
    const alone: { rows: unknown; atlas: Atlas; bytes: string }[] = [];
    for (const folder of folders) {
      const connection = await fresh();
      await load(sqliteDriver(connection), folder);
      alone.push({ rows: await kept(connection), atlas: await readAtlas(connection), bytes: await bytesOf(connection, 'small') });
    }
    const connection = await fresh();
    // Every edition over every other, each pair once.
    const walk = folders.flatMap((_, a) => folders.flatMap((__, b) => (a < b ? [a, b] : [])));
    for (const at of walk) {
      await load(sqliteDriver(connection), folders[at] as string, { anyEdition: true });
      expect(await bytesOf(connection, 'small')).toBe(alone[at]?.bytes);
      expect(JSON.stringify(await readAtlas(connection))).toBe(JSON.stringify(alone[at]?.atlas));
      expect(await kept(connection)).toEqual(alone[at]?.rows);
      expect((await searchAtlas(connection, 'tern', 20)).length).toBeGreaterThan(3);
    }
  });

  test('[H2] what is written last in the same batch is made of the atlas as it then is, several packs beside each other', async () => {
    const annex = join(freshFolder(), 'annex');
    await cp(smallPack, annex, { recursive: true });
    for (const file of ['makers', 'families', 'generations', 'models']) await writeFile(join(annex, `${file}.json`), '[]');
    await writeFile(join(annex, 'pack.json'), (await readFile(join(annex, 'pack.json'), 'utf8')).replace('"small"', '"annex"'));
    await writeFile(
      join(annex, 'parts.csv'),
      'id,slot,name,maker,numbers,pattern_of,supersedes,source\nbh-annex,bearing-housing,Annex housing,,,bh-petrel,,shop-book\n',
    );
    await writeFile(join(annex, 'facts.csv'), 'part,feature,value,lower,upper,code,source\nbh-annex,bh-water,yes,,,,\n');
    await writeFile(join(annex, 'allowed.csv'), 'model,slot,part,role\ntern-4,bearing-housing,bh-annex,service\n');
    await rm(join(annex, 'sheets'), { recursive: true });
    const connection = await fresh();
    const told: Atlas[] = [];
    const alongside: NonNullable<LoadOptions['alongside']> = async (_reader, after) => {
      told.push(after);
      return [];
    };
    for (const folder of [
      smallPack,
      annex,
      await edited(smallPack, '2026-04-01', editions[2]).then(() => edited(smallPack, '2026-04-02', editions[4])),
    ]) {
      await load(sqliteDriver(connection), folder, { alongside });
      const is = await readAtlas(connection);
      const said = told.at(-1) as Atlas;
      expect(said).toEqual(is);
      for (const { name } of everyList)
        expect(
          (said[name] ?? []).map(({ id }) => id),
          name,
        ).toEqual((is[name] ?? []).map(({ id }) => id));
      expect(said.parts.map(({ id }) => id)).toEqual(is.parts.map(({ id }) => id));
    }
    expect((told.at(-1) as Atlas).models.find(({ id }) => id === 'tern-4')?.allowed).toContainEqual({
      slot: 'bearing-housing',
      part: 'bh-annex',
      role: 'service',
    });
    // The two as one batch are what they are one after the other.
    const [together, apart] = [await fresh(), await fresh()];
    const both = await writePlanned(sqliteDriver(together), (reader) =>
      planLoads(reader, [smallPack, annex], { expandCode: expandH7 }, noon.toISOString()),
    );
    expect(both.map(({ pack, changed }) => [pack, changed])).toEqual([
      ['small', true],
      ['annex', true],
    ]);
    for (const folder of [smallPack, annex]) await load(sqliteDriver(apart), folder);
    expect(await kept(together)).toEqual(await kept(apart));
    expect(await together.all('select n, id, parent from journal order by n')).toEqual(
      await apart.all('select n, id, parent from journal order by n'),
    );

    await removePack(sqliteDriver(connection), 'annex', noon.toISOString(), alongside);
    expect(told.at(-1)).toEqual(await readAtlas(connection));
  });

  test('[H3] what a load would come to is told without making it', async () => {
    const store = await freshStore();
    const told = valueIn(await store.packs.preview(smallPack));
    expect(told).toMatchObject({ changed: true, replaced: null, counts: { parts: 15 } });
    expect(told.change).toContainEqual({ of: 'parts', added: 15, altered: 0, removed: 0 });
    expect(await store.atlas.read()).toMatchObject({ parts: [], edition: '' });
    const made = valueIn(await store.packs.load(smallPack));
    expect(made).toEqual(told);
    const newer = await edited(smallPack, '2026-04-01', editions[3]);
    const change = valueIn(await store.packs.preview(newer)).change;
    expect(change).toContainEqual({ of: 'parts', added: 0, altered: 1, removed: 1 });
    expect(change).toContainEqual({ of: 'allowed', added: 0, altered: 0, removed: 1 });
    expect(change).toContainEqual({ of: 'sheets', added: 0, altered: 1, removed: 0 });
  });
});

describe('[H4] the journal', () => {
  test('[H4] says what each load changed: taken back from the last, it is the pack before, and at the end nothing', async () => {
    const connection = await fresh();
    const seen: string[] = [];
    for (const [index, edits] of editions.entries()) {
      await load(sqliteDriver(connection), await edited(smallPack, `2026-05-0${index + 1}`, edits));
      seen.push(await bytesOf(connection, 'small'));
    }
    const entries = await connection.all<{
      n: number;
      id: string;
      parent: string;
      cells: number;
      kind: string;
      origin: string;
      source: string;
    }>('select * from journal order by n');
    expect(entries).toHaveLength(editions.length);
    expect(entries.map(({ parent }) => parent)).toEqual(['', ...entries.slice(0, -1).map(({ id }) => id)]);
    expect(entries[0]).toMatchObject({ kind: 'pack loaded', origin: 'pack small' });
    const held = await readHeld(connection, 'small');
    if (held === null) throw new Error('the pack is not there');
    let cells = cellsOfHeld(held);
    for (const { n, cells: many } of [...entries].reverse()) {
      expect([...canonicalText(packOf('small', cells))].flat().join('\n')).toBe(seen[n - 1]);
      const effect: Effect = await effectOf(connection, n);
      expect(effect.size).toBe(many);
      cells = applyTo(cells, reverse(effect));
    }
    expect(cells.size).toBe(0);
  });

  test('[H4] keeps the effect of a whole pack, in pieces, two that come together as two, and a removal as the change to nothing', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await freshStore({ file, expandCode });
    const { with: below } = valueIn(await store.packs.load(demoPack));
    const words = below[0]?.pack ?? '';
    const connection = await freshConnection(file);
    const made = [await effectOf(connection, 1), await effectOf(connection, 2)] as const;
    for (const [index, id] of [words, 'saltmarsh-demo'].entries()) {
      const held = await readHeld(connection, id);
      const after = [...(made[index] as Effect)].map(([key, altered]) => [key, altered.after] as const);
      expect(new Map(after), id).toEqual(held === null ? null : cellsOfHeld(held));
    }
    const [{ pieces, bytes } = { pieces: 0, bytes: 0 }] = await connection.all<{ pieces: number; bytes: number }>(
      'select count(*) as pieces, sum(length(body)) as bytes from journal_effects where entry = 2',
    );
    expect(pieces).toBe(Math.ceil(made[1].size / 5000));
    expect(bytes).toBeLessThan(1_000_000);
    const driver = sqliteDriver(connection);
    await removePack(driver, 'saltmarsh-demo', noon.toISOString());
    await removePack(driver, words, noon.toISOString());
    expect(await effectOf(connection, 3)).toEqual(reverse(made[1]));
    expect(await effectOf(connection, 4)).toEqual(reverse(made[0]));
    for (const { table } of [...everyList, partList])
      expect(await connection.all(`select 1 from ${getTableName(table)}`), getTableName(table)).toEqual([]);
    expect(await connection.all('select 1 from search_terms')).toEqual([]);
    expect(await connection.all('select 1 from pack_terms')).toEqual([]);
  });

  test('[H4] one who was overtaken makes the change anew of what is there now', async () => {
    const connection = await fresh();
    const other = await freshConnection(connection.file);
    await load(sqliteDriver(connection), smallPack);
    const [one, two] = [await edited(smallPack, '2026-04-01', editions[1]), await edited(smallPack, '2026-04-02', editions[2])];
    const driver = sqliteDriver(connection);
    let overtaken = 0;
    const slow: Driver = {
      ...driver,
      write: async (batch) => {
        if (overtaken++ === 0) await load(sqliteDriver(other), one);
        return await driver.write(batch);
      },
    };
    const steps: string[] = [];
    const loaded = await load(slow, two, { onProgress: (step) => steps.push(step) });
    expect(loaded.replaced).toBe('2026-04-01');
    expect(steps.filter((step) => step === 'reading')).toHaveLength(2);
    const alone = await fresh();
    await load(sqliteDriver(alone), two);
    expect(await kept(connection)).toEqual(await kept(alone));
    expect(await connection.all('select n from journal')).toHaveLength(3);
  });

  test('[H4] one who is overtaken every time is told, and nothing is changed', async () => {
    const connection = await fresh();
    await load(sqliteDriver(connection), smallPack);
    const driver = sqliteDriver(connection);
    let n = 1;
    const never: Driver = {
      ...driver,
      write: async (batch) => {
        n += 1;
        await connection.run(
          `insert into journal (n, id, parent, at, kind, origin, cells) values (?, ?, (select id from journal order by n desc limit 1), '', '', '', 0)`,
          [n, `x${n}`],
        );
        return await driver.write(batch);
      },
    };
    const before = await kept(connection);
    await expect(load(never, await edited(smallPack, '2026-04-01', editions[1]))).rejects.toMatchObject({
      trouble: { code: 'atlas-changed' },
    });
    expect(await kept(connection)).toEqual(before);
  });

  test('[H4] over a store that only runs lists of statements, all comes to the same', async () => {
    const far = await httpStore(join(freshFolder(), 'far.sqlite'));
    onTestFinished(() => far.close());
    const [there, here] = [httpDriver(far.port), sqliteDriver(await fresh())];
    for (const driver of [there, here]) {
      await load(driver, smallPack);
      await load(driver, await edited(smallPack, '2026-04-01', editions[3]));
      await load(driver, await edited(smallPack, '2026-04-02', editions[4]));
    }
    expect(await kept(there)).toEqual(await kept(here));
    const journal = 'select n, id, parent, cells from journal order by n';
    expect(await there.all(journal)).toEqual(await here.all(journal));
    expect(await there.all('select entry, piece, hex(body) as body from journal_effects')).toEqual(
      await here.all('select entry, piece, hex(body) as body from journal_effects'),
    );
    await removePack(there, 'small', noon.toISOString());
    expect(await there.all('select id from packs union all select id from parts')).toEqual([]);
  });

  test('[H4] two programs that load different packs at once both come through', async () => {
    const one = await fresh();
    const other = await freshConnection(one.file);
    const second = await edited(smallPack, '2026-04-01', editions[1]);
    await Promise.all([load(sqliteDriver(one), smallPack, { anyEdition: true }), load(sqliteDriver(other), second, { anyEdition: true })]);
    const head = await headOf(one);
    expect(head.n).toBe(2);
    expect(await one.all('pragma foreign_key_check')).toEqual([]);
  });
});

describe('[H4] what others need', () => {
  test('[H4] is named as SQLite’s own check of references would name it', async () => {
    const lean = join(freshFolder(), 'lean');
    await cp(smallPack, lean, { recursive: true });
    const head = JSON.parse(await readFile(join(lean, 'pack.json'), 'utf8'));
    await writeFile(join(lean, 'pack.json'), JSON.stringify({ ...head, id: 'lean' }));
    // Its ports it shares with the other, but not the slots they are of.
    for (const file of ['stages', 'slots', 'features', 'joints', 'makers', 'families', 'generations', 'models', 'sources'])
      await writeFile(join(lean, `${file}.json`), '[]');
    await writeFile(
      join(lean, 'parts.csv'),
      'id,slot,name,maker,numbers,pattern_of,supersedes,source\nbh-lean,bearing-housing,Lean housing,,,bh-petrel,,shop-book\ncw-lean,compressor-wheel,Lean wheel,merrowby,,,cw-tern-4,shop-book\n',
    );
    await writeFile(join(lean, 'facts.csv'), 'part,feature,value,lower,upper,code,source\nbh-lean,bh-water,yes,,,,\n');
    await writeFile(join(lean, 'allowed.csv'), 'model,slot,part,role\ntern-4,bearing-housing,bh-lean,service\n');
    await rm(join(lean, 'sheets'), { recursive: true });
    const connection = await fresh();
    const driver = sqliteDriver(connection);
    await load(driver, smallPack);
    await load(driver, lean);
    const before = await kept(connection);

    // What it would be, done the other way about: everything of the small pack out, and then SQLite asked.
    const told = await connection
      .transaction('immediate', async () => {
        await connection.run('pragma defer_foreign_keys = on');
        for (const table of [
          'search_terms',
          'sits',
          'sheets',
          'rates',
          'parts',
          'models',
          'generations',
          'families',
          'makers',
          'pack_terms',
        ])
          await connection.run(`delete from ${table} where pack = 'small'`);
        for (const { one, table, shared } of everyList)
          if (shared)
            await connection.run(
              `delete from ${getTableName(table)} where not exists (select 1 from pack_terms h where h.kind = ? and h.id = ${getTableName(table)}.id)`,
              [one],
            );
        await connection.run(`delete from packs where id = 'small'`);
        throw new TroubleError({ code: 'seen', place: null, sentence: JSON.stringify(await connection.all('pragma foreign_key_check')) });
      })
      .catch((error: TroubleError) => JSON.parse(error.trouble.sentence) as { table: string; parent: string }[]);
    expect(told.length).toBeGreaterThan(5);
    const held = await readHeld(connection, 'small');
    const effect = changeBetween(held === null ? new Map() : cellsOfHeld(held), new Map());
    const going = goingIn(effect, {
      numbers: numbersIn(await readNumbering(connection)),
      heldByOthers: heldIn([await packFrom(connection, 'lean')]),
    });
    expect(await danglingWithout(connection, 'small', going)).toEqual({
      many: told.length,
      table: told[0]?.table,
      parent: told[0]?.parent,
    });
    await expect(removePack(driver, 'small', noon.toISOString())).rejects.toMatchObject({
      trouble: {
        code: 'pack-needed',
        sentence: `The pack "small" was not removed: another pack of the atlas speaks of ${told[0]?.parent} that only this one has. Nothing was changed.`,
      },
    });
    expect(await kept(connection)).toEqual(before);
    expect(await connection.all('select n from journal')).toHaveLength(2);
  });
});
