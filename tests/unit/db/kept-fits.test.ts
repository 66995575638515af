import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Connection } from '../../../db/driver/connection.ts';
import { migrate } from '../../../db/driver/migrate.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { type FitEngine, fitStatements, fitsAreKept, type KeptFits, readHeldFits } from '../../../db/graph/keep-fits.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import { migrations } from '../../../db/migrations/index.ts';
import { loadPack } from '../../../db/packs/load.ts';
import { asId, compileAtlas, featuresOf, fitOf, fitsEdition, judgeJoint, type PartId, partnersOf } from '../../../reasoner/index.ts';
import { demoPack, expandCode, expandH7, filledStore, freshConnection, freshFolder, freshStore, noon, smallPack, valueIn } from './kit.ts';

const fitEngine: FitEngine = { edition: fitsEdition, judge: judgeJoint, partnersOf, featuresOf };

/** Brings the fits of a bare connection up to date, whether they are known to be old or not. */
const kept = async (connection: Connection): Promise<KeptFits> => {
  const [held, atlas] = [await readHeldFits(connection), await readAtlas(connection)];
  let told: KeptFits | undefined;
  valueIn(
    await sqliteDriver(connection).write({
      statements: fitStatements(held, atlas, fitEngine, (came) => {
        told = came;
      }),
    }),
  );
  if (told === undefined) throw new Error('what keeping the fits came to was not told');
  return told;
};

describe('[F2] the fits kept with the atlas', () => {
  test('[F2] what a part fits, from the fits kept, is what judging it anew gives: every seventh part of the demo atlas', async () => {
    const store = await freshStore({ expandCode, fitEngine });
    valueIn(await store.packs.load(demoPack));
    const bare = await freshStore({ expandCode });
    valueIn(await bare.packs.load(demoPack));
    const atlas = compileAtlas(await store.atlas.read());
    const judge = async () => (joint: Parameters<typeof fitOf>[1], a: PartId, b: PartId) => fitOf(atlas, joint, a, b);
    let edges = 0;
    for (const { id } of atlas.data.parts.filter((_, i) => i % 7 === 0)) {
      const kept = valueIn(
        await store.graph.fits(id, async () => {
          throw new Error('kept fits are not judged again');
        }),
      );
      expect(kept, id).toEqual(valueIn(await bare.graph.fits(id, judge)));
      edges += kept.partners.length;
    }
    expect(edges).toBeGreaterThan(500);
  });

  test('[F2] a dimension that changes is judged again, and nothing else is', async () => {
    const connection = await freshConnection();
    await migrate(connection, migrations);
    const folder = join(freshFolder(), 'pack');
    await cp(smallPack, folder, { recursive: true });
    const load = (): Promise<unknown> => loadPack(sqliteDriver(connection), folder, { expandCode: expandH7 }, noon.toISOString());
    await load();
    const first = await kept(connection);
    expect(first.judged).toBeGreaterThan(0);
    expect(first.kept).toBe(0);
    expect(await kept(connection)).toEqual({ judged: 0, kept: first.judged });

    const facts = await readFile(join(folder, 'facts.csv'), 'utf8');
    const line = facts.split('\n').find((row) => row.startsWith('bh-tern,bh-spigot-diameter,')) ?? '';
    expect(line).not.toBe('');
    const [part, feature, value, ...rest] = line.split(',');
    await writeFile(join(folder, 'facts.csv'), facts.replace(line, [part, feature, String(Number(value) - 5), ...rest].join(',')));
    const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8'));
    await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition: `${head.edition.split('.')[0]}.9` }));
    await load();
    const again = await kept(connection);
    expect(again.judged).toBeGreaterThan(0);
    expect(again.kept).toBeGreaterThan(0);
    expect(again.judged + again.kept).toBe(first.judged);
    const partners = await connection.all<{ id: string; verdict: string }>(
      `select o.id, f.verdict from parts p join mates m on m.part = p.id join matings g on g.n = m.mating join fits f on f.b = m.mating join mates x on x.mating = f.a join parts o on o.id = x.part
       where p.id = 'bh-tern' and g.joint = 'housing-on-core'`,
    );
    expect(partners, 'five millimetres smaller, it fits no housing whose recess is known').toEqual([
      { id: 'ch-petrel', verdict: 'not known' },
    ]);
  });

  test('[F2] a joint whose rules change is judged anew', async () => {
    const connection = await freshConnection();
    await migrate(connection, migrations);
    await loadPack(sqliteDriver(connection), smallPack, { expandCode: expandH7 }, noon.toISOString());
    const first = await kept(connection);
    await connection.run(`update joints set rules = '[]' where id = 'housing-on-core'`);
    const again = await kept(connection);
    expect(again.judged, 'with nothing to read, all parts of a side read alike').toBe(1);
    expect(again.kept).toBeLessThan(first.judged);
  });

  test('[F2] a joint one of whose rules asks for another number is judged anew, and its fits are those of an atlas that never had the old one', async () => {
    const asking = async (max: number, edition: string): Promise<string> => {
      const folder = join(freshFolder(), 'pack');
      await cp(smallPack, folder, { recursive: true });
      const joints = join(folder, 'joints.json');
      await writeFile(joints, (await readFile(joints, 'utf8')).replace('"max": 0.12', `"max": ${max}`));
      const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8'));
      await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition }));
      return folder;
    };
    const verdicts = async (store: Awaited<ReturnType<typeof freshStore>>) =>
      valueIn(
        await store.graph.fits(asId('ch-tern'), async () => {
          throw new Error('kept fits are not judged again');
        }),
      ).partners.map(({ part, fit }) => [part.id, fit.verdict, fit.findings.map(({ asked }) => asked)]);
    const store = await freshStore({ fitEngine });
    valueIn(await store.packs.load(await asking(0.12, '2026-03-02')));
    const before = await verdicts(store);
    valueIn(await store.packs.load(await asking(0.1, '2026-03-03')));
    const after = await verdicts(store);
    const anew = await freshStore({ fitEngine });
    valueIn(await anew.packs.load(await asking(0.1, '2026-03-03')));
    expect(after).toEqual(await verdicts(anew));
    expect(after, 'the clearance of 0.05 to 0.105 mm is within 0.12 and straddles 0.1').not.toEqual(before);
  });

  test('[F2] fits kept by an engine that judges otherwise are judged anew, all of them; without an engine none are taken from what is kept', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const before = await filledStore({
      file,
      fitEngine: {
        ...fitEngine,
        edition: 'earlier',
        partnersOf: (_joint, _slots, _of, _as, bs) => () => [...bs.keys()],
        judge: (...asked) => ({ ...judgeJoint(...asked), verdict: 'drops in' }),
      },
    });
    const never = async (): Promise<never> => {
      throw new Error('kept fits are not judged again');
    };
    const verdicts = async (store: typeof before) =>
      valueIn(await store.graph.fits(asId('bh-petrel'), never)).partners.map(({ part, fit }) => [part.id, fit.verdict]);
    const earlier = await verdicts(before);
    expect(earlier).toContainEqual(['ch-tern', 'drops in']);
    await before.close();
    const store = await freshStore({ file, fitEngine });
    const now = await verdicts(store);
    expect(now).toEqual(await verdicts(await filledStore({ fitEngine })));
    expect(now).not.toEqual(earlier);
    await store.close();
    const bare = await freshStore({ file });
    await expect(bare.graph.fits(asId('bh-petrel'), never)).rejects.toThrow('kept fits are not judged again');
  });

  test('[F2] an atlas changed without the engine says its fits are old, and keeps them when it is next asked with one', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const bare = await filledStore({ file });
    const atlas = compileAtlas(await bare.atlas.read());
    const judged = valueIn(await bare.graph.fits(asId('ch-tern'), async () => (joint, a, b) => fitOf(atlas, joint, a, b)));
    await bare.close();
    const store = await freshStore({ file, fitEngine });
    expect(
      valueIn(
        await store.graph.fits(asId('ch-tern'), async () => {
          throw new Error('kept fits are not judged again');
        }),
      ),
    ).toEqual(judged);
    await store.close();
    const connection = await freshConnection(file);
    expect(await fitsAreKept(connection, fitEngine)).toBe(true);
  });

  test('[F2] whatever changes of an atlas, one change after the other, its fits are those of an atlas that was never otherwise', async () => {
    const folder = join(freshFolder(), 'pack');
    await cp(smallPack, folder, { recursive: true });
    const file = join(folder, 'facts.csv');
    const whole = (await readFile(file, 'utf8')).split('\n');
    const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8'));
    const store = await freshStore({ fitEngine });
    valueIn(await store.packs.load(folder));
    const allFits = async (of: typeof store) => {
      const { parts } = await of.atlas.read();
      return await Promise.all(
        parts.map(async ({ id }) =>
          valueIn(
            await of.graph.fits(id, async () => {
              throw new Error('kept fits are not judged again');
            }),
          ),
        ),
      );
    };
    /** A line with its figure moved, or made one of those nobody knows. */
    const measured = whole.flatMap((line, i) => (/-diameter,[0-9.]+,/.test(line) ? [i] : []));
    expect(measured.length).toBeGreaterThan(3);
    const seen = new Set<string>();
    for (const [step, at] of [...measured, ...measured, ...measured.slice(0, 3)].entries()) {
      const [part, feature, value, ...rest] = (whole[at] as string).split(',');
      const moved = step % 3 === 2 ? ['?', ...rest.map(() => '')] : [(Number(value) + (step % 2 === 0 ? 0.04 : -0.04)).toFixed(2), ...rest];
      const lines = whole.map((line, i) => (i === at ? [part, feature, ...moved].join(',') : line));
      await writeFile(file, lines.join('\n'));
      await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition: `2027-01-${String(step + 1).padStart(2, '0')}` }));
      valueIn(await store.packs.load(folder));
      const anew = await freshStore({ fitEngine });
      valueIn(await anew.packs.load(folder));
      const fits = await allFits(store);
      expect(fits, lines[at]).toEqual(await allFits(anew));
      seen.add(JSON.stringify(fits));
      await anew.close();
    }
    expect(seen.size, 'some of the changes change fits').toBeGreaterThan(4);
  });

  test('[F2] a change of the atlas that does not make its fits ends them, whichever way it is made', async () => {
    const connection = await freshConnection();
    await migrate(connection, migrations);
    await loadPack(sqliteDriver(connection), smallPack, { expandCode: expandH7 }, noon.toISOString());
    const journal = `insert into journal (n, id, parent, at, kind, origin, cells) select coalesce(max(n), 0) + 1, 'new', 'old', '', '', '', 0 from journal`;
    for (const change of [`update packs set edition = edition`, journal, 'pragma foreign_keys = off', 'delete from packs']) {
      await kept(connection);
      expect(await fitsAreKept(connection, fitEngine)).toBe(true);
      await connection.run(change);
      expect(await fitsAreKept(connection, fitEngine), change).toBe(change.startsWith('pragma'));
    }
    expect(await fitsAreKept(connection, { edition: 'another' })).toBe(false);
  });

  test('[F2] taking a pack out takes its fits out', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file, fitEngine });
    valueIn(await store.packs.remove('small'));
    await store.close();
    const connection = await freshConnection(file);
    for (const table of ['mates', 'matings', 'fits']) expect(await connection.all(`select * from ${table}`), table).toEqual([]);
  });
});
