import { cp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkAlone, findingLine, type PackChecked, type Store } from '../../../db/index.ts';
import type { Part } from '../../../reasoner/index.ts';
import { copyOfSmallPack, expandH7, filledStore, freshFolder, smallPack, troubleIn, valueIn } from './kit.ts';

type Entry = Record<string, unknown>;
interface Copy {
  readonly folder: string;
  text(file: string, change: (text: string) => string): Promise<void>;
  json(file: string, change: (held: Entry[]) => unknown): Promise<void>;
}

const copyOf = (folder: string): Copy => {
  const text: Copy['text'] = async (file, change) => {
    const before = await readFile(join(folder, file), 'utf8');
    await writeFile(join(folder, file), change(before));
  };
  return { folder, text, json: (file, change) => text(file, (held) => JSON.stringify(change(JSON.parse(held) as Entry[]), null, 2)) };
};
const smallCopy = async (): Promise<Copy> => copyOf(await copyOfSmallPack());
const edition =
  (of: string, more: Entry = {}) =>
  (head: unknown) => ({ ...(head as Entry), edition: of, ...more });
const checkedAlone = async (folder: string): Promise<PackChecked> => valueIn(await checkAlone(folder, { expandCode: expandH7 }));
const told = ({ faults }: PackChecked) => faults.map(({ code, file, found }) => `${code} ${file}: ${found}`);

/** A pack of its own that leans on the small one: a model of its family, which lists its parts. */
const leaningPack = async (parent: string, id = 'later'): Promise<Copy> => {
  const folder = join(parent, id);
  await cp(smallPack, folder, { recursive: true });
  const copy = copyOf(folder);
  await copy.json('pack.json', edition('2026-03-02', { id, leansOn: ['small'] }));
  for (const list of ['sources', 'stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'generations'])
    await copy.json(`${list}.json`, () => []);
  await copy.json('models.json', ([, , , , quay]) => [{ ...quay, id: `quay-${id}`, name: `Quay of ${id}`, patternOf: null }]);
  for (const table of ['parts', 'facts']) await copy.text(`${table}.csv`, (text) => `${text.split('\n')[0]}\n`);
  await copy.text(
    'allowed.csv',
    (text) => `${text.split('\n')[0]}\nquay-${id},compressor-wheel,cw-quay-13,names\nquay-${id},bearing-set,bs-journal,names\n`,
  );
  await rm(join(folder, 'sheets'), { recursive: true, force: true });
  return copy;
};

describe('[P4] a check finds everything at once, and says it once', () => {
  test('[P4] one cause in many places is one fault, with how many and the first of them', async () => {
    const { folder, text } = await smallCopy();
    await text('facts.csv', (facts) => facts.replaceAll(',cw-exducer,', ',cw-exduser,'));
    const { sound, faults, sentence } = await checkedAlone(folder);
    expect(sound).toBe(false);
    expect(faults).toMatchObject([
      { file: 'facts.csv', row: 9, column: 'feature', line: 9, character: 11, found: '"cw-exduser"', many: 6 },
    ]);
    expect(faults[0]?.also.map(({ line }) => line)).toEqual([11, 13, 15, 17, 19]);
    await copyOf(folder).json('models.json', (models) => models.map((model) => ({ ...model, source: 'hearsay' })));
    expect((await checkedAlone(folder)).faults).toMatchObject([
      { file: 'models.json', column: '[0].source', many: 5 },
      { file: 'facts.csv' },
    ]);
    expect(sentence).toMatch(/has one fault, in 6 places\. It would not be loaded\.$/);
  });

  test('[P4] a file that is no JSON hides no fault of what does not rest on it', async () => {
    const { folder, text } = await smallCopy();
    await text('sources.json', (sources) => sources.replace('"title"', 'title'));
    await text('pack.json', (head) => head.replace('"small"', '"small'));
    await text('allowed.csv', (rows) => rows.replace(',service', ',servant'));
    await text('facts.csv', (facts) => facts.replace('8,,,,', 'eight,,,,'));
    const checked = await checkedAlone(folder);
    expect(told(checked).sort()).toEqual([
      'pack-invalid allowed.csv: "servant"',
      'pack-invalid facts.csv: "eight"',
      expect.stringMatching(/^pack-invalid pack\.json: /),
      'pack-invalid sources.json: "title"',
    ]);
    expect(checked).toMatchObject({ pack: null, into: null, held: null });
  });

  test('[P4] what a pack leans on and nobody has hides nothing, and makes no line of it a fault', async () => {
    const later = await leaningPack(freshFolder());
    await later.text('allowed.csv', (rows) => rows.replace(',names\n', ',name\n'));
    expect(told(await checkedAlone(later.folder))).toEqual(['pack-invalid pack.json: "small"', 'pack-invalid allowed.csv: "name"']);
  });

  test('[P4] no sentence holds a sign a terminal would obey', async () => {
    const { folder, text } = await smallCopy();
    await text('allowed.csv', (rows) => `${rows}tern-4\u001b[2J,heat\u009bshield,a\u202eb,names\ntern-4\u001b[2J,x,a\u202eb,names\n`);
    const { faults } = await checkedAlone(folder);
    expect(faults.length).toBeGreaterThan(3);
    for (const fault of faults) expect([fault.sentence, fault.found, fault.expected, fault.place].join('')).not.toMatch(/[\p{Cc}\u202e]/u);
  });

  test('[P4] a folder there is not', async () => {
    expect(troubleIn(await checkAlone('/nowhere at all', {}))).toMatchObject({ code: 'pack-unreadable' });
  });
});

describe('[P4] a check says of a pack and an atlas what loading would', () => {
  /** The check, and whether loading agrees with it: a sound pack is loaded, any other is refused for one of the faults found. */
  const checkedIn = async (store: Store, folder: string): Promise<PackChecked> => {
    const checked = valueIn(await store.packs.check(folder));
    const loaded = await store.packs.preview(folder);
    expect(loaded.ok, JSON.stringify(checked.faults)).toBe(checked.sound);
    if (!loaded.ok) expect(checked.faults.map(({ code }) => code)).toContain(loaded.trouble.code);
    return checked;
  };

  test('[P4] the same again, a newer edition, an older one, and the same with other contents', async () => {
    const store = await filledStore();
    expect(await checkedIn(store, smallPack)).toMatchObject({
      sound: true,
      held: { edition: '2026-03-02', same: true },
      into: [{ id: 'small', edition: '2026-03-02' }],
    });
    const { folder, json } = await smallCopy();
    await json('pack.json', edition('2026-03-03'));
    expect(await checkedIn(store, folder)).toMatchObject({ sound: true, held: { same: false } });
    await json('pack.json', edition('2026-03-01'));
    expect(await checkedIn(store, folder)).toMatchObject({ faults: [{ code: 'pack-older', file: 'pack.json', line: 6, character: 14 }] });
    await json('pack.json', edition('2026-03-02', { note: 'Other words.' }));
    expect(await checkedIn(store, folder)).toMatchObject({ faults: [{ code: 'pack-same-edition', line: 6 }] });
    // With faults of its own too; but not where what cannot be read may be what is held.
    await json('models.json', (models) => models.map((model) => ({ ...model, source: 'hearsay' })));
    expect(told(await checkedIn(store, folder))).toHaveLength(2);
    await writeFile(join(folder, 'models.json'), '[');
    expect((await checkedIn(store, folder)).faults.map(({ code }) => code)).toEqual(['pack-invalid']);
  });

  test('[P4] ids of another pack, terms it says otherwise, parts it lists and its sheets, all at once', async () => {
    const store = await filledStore();
    const { folder, json, text } = await smallCopy();
    await json('pack.json', edition('2026-03-02', { id: 'second' }));
    await json('slots.json', (slots) => slots.map((slot) => (slot.id === 'bearing-set' ? { ...slot, swapMinutes: 99 } : slot)));
    const { faults } = await checkedIn(store, folder);
    const clashes = Object.fromEntries(faults.map(({ file, code, found }) => [file, `${code} ${found}`]));
    expect(clashes['slots.json']).toBe(
      'pack-clash "bearing-set", which is written otherwise in another pack of the atlas; packs that share a term must agree on it',
    );
    expect(clashes['makers.json']).toBe(
      'pack-clash "merrowby", which belongs to another pack of the atlas already; and so with "tarnwick"',
    );
    expect(clashes['allowed.csv']).toMatch(
      /^pack-clash "ch-tern" in "tern-4", which is listed by another pack of the atlas already; and so with/,
    );
    expect(Object.keys(clashes)).toEqual(expect.arrayContaining(['families.json', 'models.json', 'parts.csv']));
    expect(faults.find(({ file }) => file === 'parts.csv')).toMatchObject({ row: 2, line: 2, character: 1 });
    expect(faults.some(({ file }) => file.startsWith('sheets/'))).toBe(true);
    expect(clashes['sources.json']).toBeUndefined();
    await text('parts.csv', (rows) => rows.split('\n').slice(0, 1).join('\n'));
    expect((await checkedIn(store, folder)).faults.some(({ code }) => code === 'pack-clash')).toBe(true);
  });

  test('[P4] what other packs need of what goes, list by list, with who needs it', async () => {
    const store = await filledStore();
    const parent = freshFolder();
    const later = await leaningPack(parent);
    // A source both have: it stays in the atlas when one of them lets it go.
    await later.json('sources.json', () => [{ id: 'bench', title: 'Measured on the bench', kind: 'measured in the shop' }]);
    await later.json('models.json', (models) => models.map((model) => ({ ...model, source: 'bench' })));
    valueIn(await store.packs.load(later.folder));
    const { folder, json, text } = await smallCopy();
    await json('pack.json', edition('2026-03-03'));
    await json('sources.json', (sources) => sources.filter(({ id }) => id !== 'bench'));
    await text('facts.csv', (facts) => facts.replaceAll(',bench', ','));
    await rm(join(folder, 'sheets'), { recursive: true, force: true });
    await json('models.json', (models) => models.filter(({ id }) => id !== 'quay-13'));
    await json('families.json', (families) => families.filter(({ id }) => id !== 'quay-group'));
    await text('allowed.csv', (rows) => rows.replace(/^quay-13,.*\n/gm, ''));
    for (const table of ['parts', 'facts']) await text(`${table}.csv`, (rows) => rows.replace(/^cw-quay-13,.*\n/gm, ''));
    const { faults } = await checkedIn(store, folder);
    expect(faults).toMatchObject([
      {
        code: 'pack-needed',
        file: 'families.json',
        found: 'no family "quay-group", which the edition 2026-03-02 in the atlas has',
        expected: 'it to be kept, for the pack "later" speaks of it in one place',
      },
      { code: 'pack-needed', file: 'parts.csv', found: expect.stringContaining('"cw-quay-13"') },
    ]);
    // Of a list that cannot be read it is not known what goes.
    await text('families.json', () => '[');
    expect(told(valueIn(await store.packs.check(folder))).filter((line) => line.startsWith('pack-needed'))).toEqual([
      expect.stringContaining('parts.csv'),
    ]);
  });

  test('[P4] a pack that leans on another is held against the one the atlas holds, else against the one beside it', async () => {
    const store = await filledStore();
    const parent = freshFolder();
    const first = await leaningPack(parent);
    expect(await checkedIn(store, first.folder)).toMatchObject({ sound: true, held: null });
    const second = await leaningPack(parent, 'last');
    await second.json('pack.json', edition('2026-03-02', { id: 'last', leansOn: ['later'] }));
    await second.json('models.json', (models) => models.map((model) => ({ ...model, patternOf: 'quay-later' })));
    expect(await checkedIn(store, second.folder)).toMatchObject({ sound: true });
    await first.text('allowed.csv', (rows) => rows.replace('cw-quay-13', 'cw-nowhere'));
    expect(await checkedIn(store, second.folder)).toMatchObject({
      faults: [{ file: 'pack.json', found: `a pack that is not sound in ${first.folder}`, expected: 'packs that are sound' }],
    });
    await rm(first.folder, { recursive: true });
    expect(await checkedIn(store, second.folder)).toMatchObject({ faults: [{ file: 'pack.json', found: '"later"' }] });
  });

  test('[P4] who signed it, and whose word holds, where somebody must say so before it is loaded', async () => {
    const store = await filledStore();
    const wheel = (await store.atlas.read()).parts.find(({ id }) => id === 'cw-tern-9') as Part;
    const put = { ...wheel, facts: { ...wheel.facts, 'cw-blades': { kind: 'count', from: 9, to: 9 } } };
    const { head } = valueIn(await store.changes.look([]));
    valueIn(await store.changes.make([{ list: 'parts', put }], { who: 'Ines', why: 'counted', source: 'the bench', head }));
    const { folder, json, text } = await smallCopy();
    await json('pack.json', edition('2026-03-03'));
    expect(await checkedIn(store, folder)).toMatchObject({ sound: true });
    await text('facts.csv', (facts) => facts.replace('cw-tern-9,cw-blades,8', 'cw-tern-9,cw-blades,10'));
    await writeFile(join(folder, 'signature.json'), '{}');
    const { sound, faults } = valueIn(await store.packs.check(folder));
    expect(sound).toBe(false);
    expect(faults.map(findingLine)).toEqual([
      expect.stringMatching(/^signature\.json: The signature of the pack "small" does not hold: .+[^.]\.$/),
      'pack.json:1:1: part “cw-tern-9”, facts, cw-blades: the shop says otherwise than the edition that is held, and this edition says a third thing.',
    ]);
    expect(troubleIn(await store.packs.load(folder))).toMatchObject({ code: 'pack-signature' });
    await rm(join(folder, 'signature.json'));
    expect(valueIn(await store.packs.check(folder)).faults).toMatchObject([{ code: 'pack-disputed' }]);
    expect(troubleIn(await store.packs.load(folder))).toMatchObject({ code: 'pack-disputed' });
  });

  test('[P4] nothing is written', async () => {
    const store = await filledStore();
    const before = await readFile(store.file);
    const { folder, json } = await smallCopy();
    await json('pack.json', edition('2026-03-03'));
    valueIn(await store.packs.check(folder));
    expect(Buffer.compare(await readFile(store.file), before)).toBe(0);
    expect(valueIn(await store.packs.list())).toMatchObject([{ edition: '2026-03-02' }]);
  });
});
