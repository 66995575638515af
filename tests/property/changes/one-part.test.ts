import { cp } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { ChangeMade, Edit, Outcome, Store } from '../../../db/index.ts';
import { type Fact, featuresOf, fitsEdition, judgeJoint, type Part, partnersOf, slipOf } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoPack, expandCode, freshConnection, freshFolder, freshStore, smallPack, valueIn } from '../../unit/db/kit.ts';

const fitEngine = { edition: fitsEdition, judge: judgeJoint, partnersOf, featuresOf };
const options = { expandCode, slipOf, fitEngine } as const;

const runs = Number(process.env.KINPLATE_RUNS ?? 1);

/** Every row of the atlas but the words of the full-text index; a class of parts that mate alike by what it is, and not by its number. */
const rowsOf = async (file: string): Promise<Record<string, unknown>> => {
  const connection = await freshConnection(file);
  const tables = await connection.all<{ name: string }>(
    `select name from sqlite_master where type = 'table' and name not like 'search\\_words%' escape '\\' and name not in ('matings', 'mates', 'fits', 'journal', 'journal_effects') order by name`,
  );
  const rows: Record<string, unknown> = {};
  for (const { name } of tables) rows[name] = (await connection.all(`select * from ${name}`)).map((row) => JSON.stringify(row)).sort();
  const named = (n: string) => `(select joint || ' ' || side || ' ' || facts from matings where n = ${n})`;
  // The cells of a change stand in an order that says nothing, and its id is made of them as they stand.
  rows.journal = (await connection.all('select * from journal order by n')).map(({ id: _, parent: __, ...row }) => row);
  rows.effects = (
    await connection.all<{ entry: number; body: Buffer }>('select entry, body from journal_effects order by entry, piece')
  ).map(({ entry, body }) => [
    entry,
    body[0] === 0x5b ? (JSON.parse(body.toString()) as unknown[]).map((cell) => JSON.stringify(cell)).sort() : body,
  ]);
  rows.matings = await connection.all('select joint, side, facts, parts from matings order by joint, side, facts');
  rows.mates = await connection.all(`select part, ${named('mating')} as mating from mates order by 1, 2`);
  rows.fits = await connection.all(`select ${named('a')} as a, ${named('b')} as b, verdict, findings from fits order by 1, 2`);
  return rows;
};

/** What somebody may put in the place of a part, now and then with a fault. */
const editOf = (parts: readonly Part[], dice: Dice): Part => {
  const part = dice.one(parts);
  const alike = parts.filter(({ slot }) => slot === part.slot);
  const facts = Object.entries(part.facts) as [string, Fact][];
  const [feature, fact] = dice.one(facts);
  const other = dice.one(alike);
  const saying = (said: Fact): Part => ({ ...part, facts: { ...part.facts, [feature]: said } });
  switch (dice.one(['size', 'size', 'size', 'as another', 'not known', 'gone', 'name', 'numbers', 'after', 'source', 'slot', 'wrong'])) {
    case 'size':
      return fact.kind === 'measure'
        ? saying({ ...fact, nominal: Math.round((fact.nominal + 0.05) * 1000) / 1000 })
        : saying({ kind: 'not known' });
    case 'as another':
      return { ...part, facts: other.facts };
    case 'not known':
      return saying({ kind: 'not known' });
    case 'gone':
      return { ...part, facts: Object.fromEntries(facts.filter(([id]) => id !== feature)) as Part['facts'] };
    case 'name':
      return { ...part, name: `${part.name} ${dice.whole(1, 3)}` };
    case 'numbers':
      return { ...part, numbers: [...new Set([...part.numbers, `X ${dice.whole(1, 9)}`])] };
    case 'after': {
      const { supersedes: _, ...rest } = part;
      return dice.whole(0, 2) === 0 ? rest : { ...part, supersedes: other.id };
    }
    case 'source':
      return { ...part, factSources: { [feature]: other.source } as NonNullable<Part['factSources']> };
    case 'slot':
      return { ...part, slot: dice.one(parts).slot, facts: {} };
    default:
      return dice.one<Part>([
        { ...part, source: 'no-such-source' as Part['source'] },
        { ...part, maker: 'no-such-maker' as NonNullable<Part['maker']> },
        { ...part, patternOf: dice.one(parts).id },
        { ...part, facts: { ...part.facts, 'no-such-feature': fact } as Part['facts'] },
        { ...part, facts: { ...part.facts, ...dice.one(parts).facts } },
        saying({ kind: 'measure', nominal: -3, lower: 0, upper: 0 }),
        saying({ kind: 'presence', present: true }),
      ]);
  }
};

const atlases = [
  { name: 'a small pack', folder: smallPack, steps: 40 },
  // Its features are of another pack, and its parts many.
  { name: 'the demo pack', folder: demoPack, steps: 4 },
];

test.each(atlases.flatMap((of) => Array.from({ length: runs }, (_, at) => ({ ...of, seed: at + 1 }))))(
  '[H1] [F2] one part edited, and read of the atlas what it touches: every row, and every fault, is what comes of reading all of it ($name, seed $seed)',
  async ({ folder, steps, seed }) => {
    const dice = new Dice(seed);
    const [narrowFile, wholeFile] = [join(freshFolder(), 'atlas.sqlite'), join(freshFolder(), 'atlas.sqlite')];
    const filled = await freshStore({ ...options, file: narrowFile });
    valueIn(await filled.packs.load(folder));
    await filled.close();
    await cp(narrowFile, wholeFile);
    const [narrow, whole] = [await freshStore({ ...options, file: narrowFile }), await freshStore({ ...options, file: wholeFile })];
    const make = async (store: Store, edits: readonly Edit[]) =>
      store.changes.make(edits, { who: 'me', why: '', source: '', head: valueIn(await store.changes.head()) });
    const told = (outcome: Outcome<ChangeMade>) => (outcome.ok ? { ...outcome.value, head: '' } : outcome.trouble);
    let refused = 0;
    let followed = await narrow.atlas.read();
    for (let step = 0; step < steps; step += 1) {
      const { parts, sources } = followed;
      const put = { list: 'parts', put: { ...editOf(parts, dice) } };
      // With something said again as it stands, more than a part is edited, and all of the atlas is read.
      const again = { list: 'sources', put: { ...sources[0] } };
      const [made, known] = [await make(narrow, [put]), await make(whole, [put, again])];
      expect(told(made)).toEqual(told(known));
      if (!made.ok) refused += 1;
      if (dice.whole(0, 5) === 0) {
        const { change } = valueIn(await narrow.changes.list(null, 1, null))[0] ?? { change: 0 };
        const undo = async (store: Store) =>
          told(await store.changes.undo(change, true, { who: '', why: '', head: valueIn(await store.changes.head()) }));
        expect(await undo(narrow)).toEqual(await undo(whole));
      }
      const since = await narrow.atlas.readSince(followed);
      expect(since).toEqual(await narrow.atlas.read());
      if (since?.parts.length !== parts.length) throw new Error('it was read whole');
      expect(since.parts.filter((part, at) => part !== parts[at]).length).toBeLessThanOrEqual(1);
      followed = since;
      if (step % 8 === 7 || step === steps - 1) expect(await rowsOf(narrowFile)).toEqual(await rowsOf(wholeFile));
    }
    expect(refused).toBeGreaterThan(steps / 20 - 1);
    expect(refused).toBeLessThan(steps);
  },
);

test('[F2] one part edited after an edit that did not make the fits: they are not taken for those of the atlas, but made of all of it', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const filled = await freshStore({ ...options, file });
  valueIn(await filled.packs.load(demoPack));
  const { parts } = await filled.atlas.read();
  await filled.close();
  const knownFile = join(freshFolder(), 'atlas.sqlite');
  await cp(file, knownFile);
  const sized = (part: Part): boolean => Object.values<Fact>(part.facts).some(({ kind }) => kind === 'measure');
  const larger = (part: Part): Part => ({
    ...part,
    facts: Object.fromEntries(
      Object.entries<Fact>(part.facts).map(([id, fact]) => [
        id,
        fact.kind === 'measure' ? { ...fact, nominal: Math.round((fact.nominal + 0.05) * 1000) / 1000 } : fact,
      ]),
    ) as Part['facts'],
  });
  const [first, second] = parts.filter(sized) as [Part, Part];
  const edit = async (at: string, put: Part, judging: boolean) => {
    const { fitEngine: _, ...bare } = options;
    const store = await freshStore({ ...(judging ? options : bare), file: at });
    valueIn(
      await store.changes.make([{ list: 'parts', put: { ...put } }], {
        ...{ who: 'me', why: '', source: '', head: valueIn(await store.changes.head()) },
      }),
    );
    await store.close();
  };
  for (const at of [file, knownFile]) await edit(at, larger(first), at === knownFile);
  for (const at of [file, knownFile]) await edit(at, larger(second), true);
  expect(await rowsOf(file)).toEqual(await rowsOf(knownFile));
});
