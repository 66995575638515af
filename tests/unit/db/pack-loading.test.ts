import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { compareEditions } from '../../../db/atlas/pack.ts';
import { readPack } from '../../../db/index.ts';
import { asId, type ModelId, type PartId, type SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { copyOfSmallPack, expandH7, filledStore, freshFolder, freshStore, smallPack, troubleIn, valueIn } from './kit.ts';

/** A copy of the small pack with files changed, and the edition given. */
const edited = async (edition: string, changes: Readonly<Record<string, (text: string) => string>> = {}): Promise<string> => {
  const folder = await copyOfSmallPack();
  for (const [file, change] of Object.entries({ ...changes, 'pack.json': (text: string) => text.replace('2026-03-02', edition) })) {
    const text = await readFile(join(folder, file), 'utf8');
    await writeFile(join(folder, file), change(text));
  }
  return folder;
};

const swap = (from: string, to: string) => (text: string) => text.replace(from, to);

/** A second pack that leans on the small one: its own family, one part made to a Petrel's pattern, and a part more for the Tern 4. */
const annex = async (changes: Readonly<Record<string, string>> = {}): Promise<string> => {
  const folder = join(freshFolder(), 'annex');
  await mkdir(join(folder, 'sheets'), { recursive: true });
  const list = (entries: readonly unknown[]) => JSON.stringify(entries, null, 2);
  const files: Record<string, string> = {
    'pack.json': JSON.stringify({
      format: 'kinplate atlas pack',
      version: 1,
      id: 'annex',
      title: 'Workshop parts',
      edition: '2026-03-03',
      invented: true,
      note: 'Every maker, name and figure in this pack is invented.',
    }),
    'sources.json': list([{ id: 'shop-book', title: 'The shop book of Saltmarsh Rotor & Fuel', kind: 'invented' }]),
    'stages.json': '[]',
    'slots.json': '[]',
    'ports.json': '[]',
    'features.json': '[]',
    'joints.json': '[]',
    'makers.json': '[]',
    'families.json': list([
      {
        id: 'slip-group',
        name: 'Slipway workshop',
        maker: null,
        from: null,
        to: null,
        descendsFrom: [],
        succeeds: [],
        patternOf: ['petrel'],
        about: '',
        source: 'shop-book',
      },
    ]),
    'generations.json': '[]',
    'models.json': list([
      {
        id: 'slip-13',
        name: 'Slipway copy',
        family: 'slip-group',
        generation: null,
        patternOf: 'petrel-13',
        from: null,
        to: null,
        source: 'shop-book',
      },
    ]),
    'parts.csv':
      'id,slot,name,maker,numbers,pattern_of,supersedes,source\nbh-slip,bearing-housing,Slipway bearing housing,,,bh-petrel,,shop-book\ncw-tern-4-b,compressor-wheel,Tern 4 wheel of the second kind,merrowby,BERTH 310-1046,,cw-tern-4,shop-book\n',
    'facts.csv': 'part,feature,value,lower,upper,code,source\nbh-slip,bh-water,yes,,,,\n',
    'allowed.csv': 'model,slot,part,role\nslip-13,bearing-housing,bh-slip,names\ntern-4,bearing-housing,bh-slip,service\n',
    ...changes,
  };
  for (const [file, text] of Object.entries(files)) await writeFile(join(folder, file), text);
  return folder;
};

/** Those of the pack: what describes it to other programs is none. */
const filesIn = async (folder: string): Promise<Readonly<Record<string, string>>> => {
  const names = (await readdir(folder, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile() && entry.name !== 'datapackage.json')
    .map((entry) => join(entry.parentPath, entry.name));
  return Object.fromEntries(
    await Promise.all(names.sort().map(async (name) => [name.slice(folder.length + 1), await readFile(name, 'utf8')])),
  );
};

describe('editions of one pack', () => {
  test('order by date, then by count within the day', () => {
    expect(compareEditions('2026-03-02', '2026-11-01')).toBeLessThan(0);
    expect(compareEditions('2026-03-02.10', '2026-03-02.9')).toBeGreaterThan(0);
    expect(compareEditions('2026-03-02', '2026-03-02.2')).toBeLessThan(0);
    expect(compareEditions('2026-03-02', '2026-03-02')).toBe(0);
  });

  test('a newer edition takes the place of the one before, and own sheets stay', async () => {
    const store = await filledStore();
    const sheet = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
    valueIn(await keepSheet(store, { ...sheet, id: asId<SheetId>('mine'), title: 'mine' }));
    const newer = await edited('2026-04-01', {
      'parts.csv': (text) => text.replace('Tern nameplate', 'Tern plate').replace(/^ch-rowan,.*\n/m, ''),
      'facts.csv': (text) => text.replace(/^ch-rowan,.*\n/gm, '').replace('cw-tern-4,cw-blades,8', 'cw-tern-4,cw-blades,9'),
      'allowed.csv': (text) => text.replace(/^.*ch-rowan.*\n/m, ''),
      'sheets/planned-01.json': swap('"ch-rowan"', '"ch-tern"'),
    });
    expect(valueIn(await store.packs.load(newer))).toMatchObject({ changed: true, replaced: '2026-03-02', counts: { parts: 14 } });
    const fresh = await freshStore();
    valueIn(await fresh.packs.load(newer));
    expect(await store.atlas.read()).toEqual(await fresh.atlas.read());
    expect(valueIn(await store.sheets.open(asId<SheetId>('mine'))).title).toBe('mine');
    expect(valueIn(await store.graph.search('Rowan compressor housing', 5))).toEqual([]);
    expect(valueIn(await store.graph.search('Tern plate', 5))).toHaveLength(1);
  });

  test('an own sheet that speaks of a part the newer edition dropped opens as it was saved, and says what is gone when it is checked', async () => {
    const store = await filledStore();
    const planned = valueIn(await store.sheets.open(asId<SheetId>('planned-01')));
    valueIn(await keepSheet(store, planned));
    const newer = await edited('2026-04-01', {
      'parts.csv': (text) => text.replace(/^ch-rowan,.*\n/m, ''),
      'facts.csv': (text) => text.replace(/^ch-rowan,.*\n/gm, ''),
      'allowed.csv': (text) => text.replace(/^.*ch-rowan.*\n/m, ''),
      'sheets/planned-01.json': swap('"ch-rowan"', '"ch-tern"'),
    });
    valueIn(await store.packs.load(newer));
    const opened = valueIn(await store.sheets.open(planned.id));
    expect(opened).toEqual(planned);
    expect(troubleIn(await store.sheets.check(opened))).toMatchObject({
      code: 'sheet-unknown',
      place: 'sheet planned-01, chosen.compressor-housing',
    });
  });

  test('an older edition, and the same edition with other contents, are refused and change nothing', async () => {
    const store = await filledStore();
    const before = await store.atlas.read();
    expect(troubleIn(await store.packs.load(await edited('2026-03-01'))).code).toBe('pack-older');
    const same = await edited('2026-03-02', { 'parts.csv': swap('journal set', 'set of journals') });
    expect(troubleIn(await store.packs.load(same)).code).toBe('pack-same-edition');
    expect(await store.atlas.read()).toEqual(before);
    expect(valueIn(await store.packs.load(same, { anyEdition: true }))).toMatchObject({ changed: true });
    expect(valueIn(await store.graph.search('set of journals', 5))).toHaveLength(1);
  });

  test('a faulty newer edition changes nothing', async () => {
    const store = await filledStore();
    const before = await store.atlas.read();
    const faulty = await edited('2026-04-01', { 'allowed.csv': swap('bs-journal,service', 'bs-journal,spare') });
    expect(troubleIn(await store.packs.load(faulty))).toMatchObject({ code: 'pack-invalid' });
    expect(await store.atlas.read()).toEqual(before);
  });

  test('the same pack in other lines and spacing is still the same pack', async () => {
    const store = await filledStore();
    const folder = await copyOfSmallPack();
    const text = await readFile(join(folder, 'slots.json'), 'utf8');
    await writeFile(join(folder, 'slots.json'), JSON.stringify(JSON.parse(text)));
    expect(valueIn(await store.packs.load(folder))).toMatchObject({ changed: false });
  });
});

describe('several packs', () => {
  test('stand side by side, the second leaning on the first', async () => {
    const store = await filledStore();
    valueIn(await store.packs.load(await annex()));
    const atlas = await store.atlas.read();
    expect(atlas.edition).toBe('annex 2026-03-03 + small 2026-03-02');
    expect(atlas.sources).toHaveLength(2);
    expect(atlas.parts).toHaveLength(17);
    const tern = atlas.models.find((model) => model.id === 'tern-4');
    expect(tern?.allowed).toContainEqual({ slot: 'bearing-housing', part: 'bh-slip', role: 'service' });
    expect(valueIn(await store.graph.part(asId<PartId>('bh-petrel'))).patterns.map((part) => part.id)).toEqual(['bh-slip', 'bh-quay']);
    expect(valueIn(await store.graph.supersession(asId<PartId>('cw-tern-4'))).map((part) => part.id)).toEqual(['cw-tern-4', 'cw-tern-4-b']);
  });

  test('a newer edition of the first keeps what the second says of it', async () => {
    const store = await filledStore();
    valueIn(await store.packs.load(await annex()));
    const newer = await edited('2026-04-01', {
      // The parts change places, so that their numbers would change if they were not kept.
      'parts.csv': (text) => {
        const [header = '', ...rows] = text.trimEnd().split('\n');
        return `${[header, ...rows.reverse()].join('\n')}\n`;
      },
    });
    valueIn(await store.packs.load(newer));
    const atlas = await store.atlas.read();
    expect(atlas.parts.find((part) => part.id === 'bh-slip')?.patternOf).toBe('bh-petrel');
    expect(atlas.models.find((model) => model.id === 'slip-13')?.patternOf).toBe('petrel-13');
    expect(atlas.models.find((model) => model.id === 'tern-4')?.allowed).toContainEqual({
      slot: 'bearing-housing',
      part: 'bh-slip',
      role: 'service',
    });
    expect(valueIn(await store.packs.export('annex', join(freshFolder(), 'out')))).toBeNull();
  });

  test('a newer edition of the first may say less of what the second refers to', async () => {
    const store = await filledStore();
    valueIn(await store.packs.load(await annex()));
    const less = await edited('2026-04-01', { 'facts.csv': (text) => text.replace(/^bh-petrel,bh-water,.*\n/m, '') });
    valueIn(await store.packs.load(less));
    const parts = new Map((await store.atlas.read()).parts.map((part) => [part.id, part]));
    expect(parts.get(asId<PartId>('bh-petrel'))?.facts).not.toHaveProperty('bh-water');
    expect(parts.get(asId<PartId>('bh-slip'))?.patternOf).toBe('bh-petrel');
  });

  test('a newer edition without what the second needs is refused, and so is taking the first away', async () => {
    const store = await filledStore();
    valueIn(await store.packs.load(await annex()));
    const before = await store.atlas.read();
    const without = await edited('2026-04-01', {
      'parts.csv': (text) => text.replace(/^bh-petrel,.*\n/m, '').replace(',,bh-petrel,', ',,,'),
      'facts.csv': (text) => text.replace(/^bh-petrel,.*\n/gm, ''),
      'allowed.csv': (text) => text.replace(/^.*bh-petrel.*\n/gm, ''),
    });
    expect(troubleIn(await store.packs.load(without))).toMatchObject({ code: 'pack-needed' });
    expect(troubleIn(await store.packs.remove('small'))).toMatchObject({ code: 'pack-needed' });
    expect(await store.atlas.read()).toEqual(before);
  });

  test('taken away in the other order, nothing is left but own sheets', async () => {
    const store = await filledStore();
    const alone = await store.atlas.read();
    valueIn(await store.packs.load(await annex()));
    valueIn(await keepSheet(store, valueIn(await store.sheets.open(asId<SheetId>('found-01')))));
    valueIn(await store.packs.remove('annex'));
    expect(await store.atlas.read()).toEqual(alone);
    valueIn(await store.packs.remove('small'));
    expect(await store.atlas.read()).toMatchObject({ parts: [], slots: [], features: [], sources: [] });
    expect(valueIn(await store.graph.search('tern', 5))).toEqual([]);
    expect(valueIn(await store.sheets.list()).map((sheet) => [sheet.id, sheet.origin])).toEqual([['found-01', 'own']]);
    expect(troubleIn(await store.packs.remove('small')).code).toBe('not-found');
  });

  test('a term both hold must be the same in both', async () => {
    const store = await filledStore();
    const clash = await annex({ 'sources.json': JSON.stringify([{ id: 'shop-book', title: 'Another book', kind: 'invented' }]) });
    expect(troubleIn(await store.packs.load(clash))).toMatchObject({ code: 'pack-clash', place: `${clash}/sources.json` });
  });

  test.each([
    [
      'parts.csv',
      'id,slot,name,maker,numbers,pattern_of,supersedes,source\nbh-slip,bearing-housing,Slipway bearing housing,,,,,shop-book\nbh-tern,bearing-housing,Tern housing,,,,,shop-book\n',
    ],
    ['allowed.csv', 'model,slot,part,role\nslip-13,bearing-housing,bh-slip,names\ntern-4,bearing-housing,bh-tern,option\n'],
  ])('%s: what belongs to another pack is not said again', async (file, text) => {
    const store = await filledStore();
    const folder = await annex({ [file]: text });
    expect(troubleIn(await store.packs.load(folder))).toMatchObject({ code: 'pack-clash', place: `${folder}/${file}` });
  });

  test('facts stand in the pack of their part', async () => {
    const store = await filledStore();
    const folder = await annex({ 'facts.csv': 'part,feature,value,lower,upper,code,source\nbh-tern,bh-water,yes,,,,\n' });
    expect(troubleIn(await store.packs.load(folder))).toMatchObject({
      code: 'pack-invalid',
      place: `${folder}/facts.csv, row 2, column part`,
    });
  });

  test('alone, the second pack is refused: it leans on what is not there', async () => {
    const store = await freshStore();
    expect(troubleIn(await store.packs.load(await annex())).code).toBe('pack-invalid');
  });

  test('a circle through two packs is found', async () => {
    const store = await filledStore();
    valueIn(await store.packs.load(await annex()));
    const circle = await edited('2026-04-01', { 'parts.csv': swap('BERTH 310-0046,,,', 'BERTH 310-0046,,cw-tern-4-b,') });
    const trouble = troubleIn(await store.packs.load(circle));
    expect(trouble.sentence).toContain('a circle: cw-tern-4 → cw-tern-4-b → cw-tern-4');
  });
});

describe('export', () => {
  test('gives back what was loaded, to the byte', async () => {
    const store = await filledStore();
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    expect(await filesIn(out)).toEqual(await filesIn(smallPack));
  });

  test('of a pack in any order and spacing is canonical: exported, loaded and exported again it is the same', async () => {
    const folder = await copyOfSmallPack();
    const facts = (await readFile(join(folder, 'facts.csv'), 'utf8')).trimEnd().split('\n');
    await writeFile(join(folder, 'facts.csv'), `${[facts[0], ...facts.slice(1).reverse()].join('\r\n')}\r\n`);
    const store = await freshStore();
    valueIn(await store.packs.load(folder));
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    expect(await filesIn(out)).toEqual(await filesIn(smallPack));
  });

  test('of one pack among several holds that pack alone', async () => {
    const store = await filledStore();
    const folder = await annex();
    valueIn(await store.packs.load(folder));
    const [out, outAnnex] = [join(freshFolder(), 'out'), join(freshFolder(), 'annex')];
    valueIn(await store.packs.export('small', out));
    expect(await filesIn(out)).toEqual(await filesIn(smallPack));
    valueIn(await store.packs.export('annex', outAnnex));
    const again = await filledStore();
    expect(valueIn(await again.packs.load(outAnnex))).toMatchObject({ changed: true });
    expect(await again.atlas.read()).toEqual(await store.atlas.read());
    expect(valueIn(await again.packs.load(folder))).toMatchObject({ changed: false });
  });

  test('into a folder with something in it is refused', async () => {
    const store = await filledStore();
    const out = freshFolder();
    await writeFile(join(out, 'letter.txt'), 'keep me');
    expect(troubleIn(await store.packs.export('small', out))).toMatchObject({ code: 'pack-cannot-write' });
    expect(await readdir(out)).toEqual(['letter.txt']);
    expect(troubleIn(await store.packs.export('small', join(out, 'letter.txt')))).toMatchObject({ code: 'pack-cannot-write' });
    expect(troubleIn(await store.packs.export('nobody', join(out, 'x')))).toMatchObject({ code: 'not-found' });
  });
});

test('loading tells of its steps in order', async () => {
  const store = await freshStore();
  const steps: string[] = [];
  valueIn(await store.packs.load(smallPack, { onProgress: (step) => steps.push(step) }));
  expect(steps).toEqual(['reading', 'checking', 'terms', 'names', 'parts', 'sheets', 'search', 'loaded']);
});

test('[A3] roles come back as they were listed', async () => {
  const store = await filledStore();
  const pack = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
  for (const model of (await store.atlas.read()).models) {
    expect(model.allowed.map(({ part, role }) => [part, role])).toEqual(
      pack.allowed.filter((each) => each.model === (model.id as ModelId)).map(({ part, role }) => [part, role]),
    );
  }
});
