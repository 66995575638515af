import { describe, expect, test } from 'vitest';
import { type Outcome, type Store, sheetText } from '../../../db/index.ts';
import {
  asId,
  type FeatureId,
  type MakerId,
  type Observation,
  type ObservationId,
  type PartId,
  type Sheet,
  type SheetId,
  type SlotId,
} from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, noon, troubleIn, valueIn } from './kit.ts';

const found = async (store: Store): Promise<Sheet> => valueIn(await store.sheets.open(asId<SheetId>('found-01')));
const seen = (slot: string, feature: string, value: Observation['value'], sure: Observation['sure'] = { kind: 'seen' }): Observation => ({
  id: asId<ObservationId>('o9'),
  slot: asId<SlotId>(slot),
  feature: asId<FeatureId>(feature),
  value,
  sure,
});

describe('a sheet held against the atlas', () => {
  test.each<[string, Partial<Sheet>, string, string]>([
    [
      'a slot the atlas does not have',
      { observations: [seen('propeller', 'cw-blades', { kind: 'count', from: 3, to: 3 })] },
      'sheet-unknown',
      'observations[0].slot',
    ],
    [
      'a feature the atlas does not have',
      { observations: [seen('compressor-wheel', 'cw-scent', { kind: 'presence', present: true })] },
      'sheet-unknown',
      'observations[0].feature',
    ],
    [
      'a feature of another slot',
      { observations: [seen('compressor-wheel', 'bs-kind', { kind: 'choice', option: 'journal' })] },
      'sheet-unknown',
      'observations[0].feature',
    ],
    [
      'a value of another kind',
      { observations: [seen('compressor-wheel', 'cw-blades', { kind: 'measure', value: 7 }, { kind: 'measured', u: 0.1 })] },
      'sheet-invalid',
      'observations[0].value.kind',
    ],
    [
      'an option nobody listed',
      { observations: [seen('bearing-set', 'bs-kind', { kind: 'choice', option: 'magnetic' })] },
      'sheet-invalid',
      'observations[0].value.option',
    ],
    [
      'a measure that was only seen',
      { observations: [seen('compressor-wheel', 'cw-exducer', { kind: 'measure', value: 57 })] },
      'sheet-invalid',
      'observations[0].sure.kind',
    ],
    [
      'a count that was measured',
      { observations: [seen('compressor-wheel', 'cw-blades', { kind: 'count', from: 7, to: 7 }, { kind: 'measured', u: 1 })] },
      'sheet-invalid',
      'observations[0].sure.kind',
    ],
    [
      'letters that are none',
      { observations: [seen('bearing-housing', 'bh-letters', { kind: 'mark', text: ' ' })] },
      'sheet-invalid',
      'observations[0].value.text',
    ],
    [
      'two observations of one id',
      {
        observations: [
          seen('compressor-wheel', 'cw-blades', { kind: 'count', from: 7, to: 7 }),
          seen('bearing-housing', 'bh-water', { kind: 'presence', present: true }),
        ],
      },
      'sheet-invalid',
      'observations[1].id',
    ],
    ['an absent slot the atlas does not have', { absent: [asId<SlotId>('propeller')] }, 'sheet-unknown', 'absent[0]'],
    [
      'a feature said not to be seen that the slot does not have',
      { unseen: [{ slot: asId<SlotId>('compressor-wheel'), feature: asId<FeatureId>('propeller'), why: 'could not see' }] },
      'sheet-unknown',
      'unseen[0].feature',
    ],
    [
      'an absent slot said twice',
      { absent: [asId<SlotId>('nameplate'), asId<SlotId>('bearing-set'), asId<SlotId>('nameplate')] },
      'sheet-invalid',
      'absent[2]',
    ],
    [
      'a feature said not to be seen in a slot the atlas does not have',
      { unseen: [{ slot: asId<SlotId>('propeller'), feature: asId<FeatureId>('cw-blades'), why: 'could not see' }] },
      'sheet-unknown',
      'unseen[0].slot',
    ],
    [
      'a feature said not to be seen in a slot it is not of',
      { unseen: [{ slot: asId<SlotId>('bearing-set'), feature: asId<FeatureId>('cw-blades'), why: 'could not see' }] },
      'sheet-unknown',
      'unseen[0].feature',
    ],
    [
      'a feature said twice not to be seen',
      {
        unseen: (['bs-kind', 'bs-needs-water', 'bs-kind'] as const).map((feature) => ({
          slot: asId<SlotId>('bearing-set'),
          feature: asId<FeatureId>(feature),
          why: 'no instrument',
        })),
      },
      'sheet-invalid',
      'unseen[2].feature',
    ],
    ['a maker the atlas does not have', { claimedMaker: asId<MakerId>('nobody') }, 'sheet-unknown', 'claimedMaker'],
    [
      'chosen parts on a found unit',
      { chosen: { ['bearing-housing' as SlotId]: asId<PartId>('bh-tern') } },
      'sheet-invalid',
      'chosen.bearing-housing',
    ],
    [
      'a chosen part the atlas does not have',
      { kind: 'planned', chosen: { ['bearing-housing' as SlotId]: asId<PartId>('bh-gone') } },
      'sheet-unknown',
      'chosen.bearing-housing',
    ],
    [
      'a part chosen for a slot the atlas does not have',
      { kind: 'planned', chosen: { ['propeller' as SlotId]: asId<PartId>('bh-tern') } },
      'sheet-unknown',
      'chosen.propeller',
    ],
    [
      'a chosen part of another slot',
      { kind: 'planned', chosen: { ['bearing-housing' as SlotId]: asId<PartId>('bs-journal') } },
      'sheet-invalid',
      'chosen.bearing-housing',
    ],
  ])('%s', async (_, change, code, place) => {
    const store = await filledStore();
    const sheet = { ...(await found(store)), id: asId<SheetId>('new'), ...change };
    const trouble = troubleIn(await store.sheets.check(sheet));
    expect(trouble).toMatchObject({ code, place: `sheet new, ${place}` });
    expect(trouble.sentence).toMatch(/: found .+, expected .+\.$/);
    expect(trouble).not.toHaveProperty('all');
    // Saving says the same, and saves nothing.
    expect(troubleIn(await keepSheet(store, sheet))).toEqual(trouble);
    expect(troubleIn(await store.sheets.open(sheet.id)).code).toBe('not-found');
  });

  test.each<[Partial<Sheet>, string]>([
    [
      { observations: [seen('bearing-set', 'bs-kind', { kind: 'choice', option: 'magnetic' })] },
      'sheet new, observations[0].value.option: found "magnetic", expected journal or cartridge.',
    ],
    [
      { observations: [seen('compressor-wheel', 'bs-kind', { kind: 'choice', option: 'journal' })] },
      'sheet new, observations[0].feature: found "bs-kind", expected a feature of the compressor wheel.',
    ],
    [
      { unseen: [{ slot: asId<SlotId>('bearing-set'), feature: asId<FeatureId>('cw-blades'), why: 'could not see' }] },
      'sheet new, unseen[0].feature: found "cw-blades", expected a feature of the bearing set.',
    ],
  ])('[T1] %#: what would be right is said in the words of the atlas', async (change, sentence) => {
    const store = await filledStore();
    const sheet = { ...(await found(store)), id: asId<SheetId>('new'), ...change };
    expect(troubleIn(await store.sheets.check(sheet)).sentence).toBe(sentence);
  });

  test('everything wrong is told at once', async () => {
    const store = await filledStore();
    const sheet = { ...(await found(store)), claimedMaker: asId<MakerId>('nobody'), absent: [asId<SlotId>('propeller')] };
    const trouble = troubleIn(await store.sheets.check(sheet));
    expect(trouble.all?.map((each) => each.place)).toEqual(['sheet found-01, claimedMaker', 'sheet found-01, absent[0]']);
    expect(trouble.sentence).toContain('There are 2 faults in all.');
  });

  test('[O1] what could not be told is kept with the sheet, of a feature nothing else on the sheet speaks of', async () => {
    const store = await filledStore();
    const unseen = [{ slot: asId<SlotId>('bearing-set'), feature: asId<FeatureId>('bs-kind'), why: 'may not be opened' }] as const;
    const sheet: Sheet = { ...(await found(store)), id: asId<SheetId>('new'), observations: [], unseen };
    expect(valueIn(await store.sheets.check(sheet))).toEqual(sheet);
    valueIn(await keepSheet(store, sheet));
    expect(valueIn(await store.sheets.open(sheet.id)).unseen).toEqual(unseen);
  });

  test('[O6] observations that contradict each other may be saved: the reasoner speaks of them', async () => {
    const store = await filledStore();
    const sheet = await found(store);
    const again = seen('compressor-wheel', 'cw-blades', { kind: 'count', from: 6, to: 6 });
    expect(valueIn(await keepSheet(store, { ...sheet, observations: [...sheet.observations, again] })).observations).toBe(4);
  });
});

describe('a sheet file', () => {
  const read = async (change: (text: string) => string): Promise<Outcome<Sheet>> => {
    const store = await filledStore();
    return await store.sheets.read(change(sheetText(await found(store))), 'petrel.json');
  };

  test('reads back as it was written, and nothing is saved', async () => {
    const store = await filledStore();
    const sheet = { ...(await found(store)), id: asId<SheetId>('from-file') };
    expect(valueIn(await store.sheets.read(sheetText(sheet), 'petrel.json'))).toEqual(sheet);
    expect(valueIn(await store.sheets.list())).toHaveLength(2);
  });

  test('text that is no JSON, with its row', async () => {
    expect(troubleIn(await read((text) => text.replace('"kind": "found",', '"kind": found,')))).toMatchObject({
      code: 'sheet-unreadable',
      place: 'petrel.json, row 5',
    });
    expect(troubleIn(await read((text) => text.slice(0, 200)))).toMatchObject({ code: 'sheet-unreadable' });
    expect(troubleIn(await read(() => ''))).toMatchObject({ code: 'sheet-unreadable', sentence: expect.stringContaining('an empty file') });
    expect(troubleIn(await read(() => '[]'))).toMatchObject({ code: 'sheet-invalid' });
  });

  test('another shape, with its row and field', async () => {
    const trouble = troubleIn(await read((text) => text.replace('"u": 0.02', '"u": -0.02')));
    expect(trouble).toMatchObject({ code: 'sheet-invalid', place: 'petrel.json, row 32, observations[1].sure.u' });
  });

  test('a unit of its own: a measure is in its feature’s', async () => {
    const trouble = troubleIn(await read((text) => text.replace('"value": 57.12', '"value": 57.12,\n"unit": "furlong"')));
    expect(trouble.sentence).toContain("no unit here: a measure is in its feature's own unit, mm or deg");
  });

  test('[T1] a count that runs backwards', async () => {
    const trouble = troubleIn(await read((text) => text.replace('"from": 7', '"from": 8')));
    expect(trouble).toMatchObject({ code: 'sheet-invalid', place: 'petrel.json, row 13, observations[0].value' });
    expect(trouble.sentence).toMatch(/expected a count that runs from the smaller number to the larger\.$/);
  });

  test.each([
    ['a text', '"Left on', '"Left \\ud83c on', 'row 4, story'],
    ['an id', '"feature": "cw-blades"', '"feature": "cw-blades\\udf0a"', 'row 12, observations[0].feature'],
  ])('[R6] half a surrogate pair in %s, which could not be kept', async (_, whole, half, place) => {
    const trouble = troubleIn(await read((text) => text.replace(whole, half)));
    expect(trouble).toMatchObject({ code: 'sheet-invalid', place: `petrel.json, ${place}` });
    expect(trouble.all?.map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(/found half a surrogate pair, expected text that is whole\.$/),
      // The schema says so by itself too: of what comes in as a call, nothing else does.
      expect.stringMatching(/, expected text without half a surrogate pair\.$/),
    ]);
  });

  test('the same field twice', async () => {
    expect(troubleIn(await read((text) => text.replace('"kind": "found",', '"kind": "found",\n"kind": "planned",')))).toMatchObject({
      code: 'sheet-invalid',
      place: 'petrel.json, row 6, kind',
    });
  });

  test('a part or feature that does not exist', async () => {
    expect(troubleIn(await read((text) => text.replace('"cw-blades"', '"cw-scent"')))).toMatchObject({
      code: 'sheet-unknown',
      place: 'petrel.json, row 12, observations[0].feature',
    });
  });
});

describe('the shelf', () => {
  test('own sheets come first, last saved first', async () => {
    let minute = 0;
    const store = await filledStore({ now: () => new Date(noon.getTime() + 60_000 * minute++) });
    const sheet = await found(store);
    for (const id of ['a', 'b', 'c', 'a']) valueIn(await keepSheet(store, { ...sheet, id: asId<SheetId>(id) }));
    expect(valueIn(await store.sheets.list()).map((each) => each.id)).toEqual(['a', 'c', 'b', 'found-01', 'planned-01']);
  });

  test('a sample cannot be removed, and what is not there cannot either', async () => {
    const store = await filledStore();
    expect(troubleIn(await store.sheets.remove(asId<SheetId>('found-01'))).code).toBe('sheet-is-sample');
    expect(troubleIn(await store.sheets.remove(asId<SheetId>('nothing'))).code).toBe('not-found');
    expect(troubleIn(await store.sheets.open(asId<SheetId>('nothing'))).code).toBe('not-found');
  });

  test('a sheet comes back exactly: notes, letters, decimals and signs', async () => {
    const store = await filledStore();
    const sheet: Sheet = {
      ...(await found(store)),
      id: asId<SheetId>('odd'),
      title: 'O’Hara’s “Basalt-QD′” 🌊',
      story: 'One line,\nand another;\ttabbed, with \\ and "quotes"',
      observations: [
        {
          ...seen('compressor-wheel', 'cw-exducer', { kind: 'measure', value: 57.129999999999995 }, { kind: 'measured', u: 1e-7 }),
          note: '',
        },
      ],
      chosen: {},
    };
    valueIn(await keepSheet(store, sheet));
    expect(valueIn(await store.sheets.open(sheet.id))).toEqual(sheet);
  });

  test('saves side by side all arrive', async () => {
    const store = await filledStore();
    const sheet = await found(store);
    const saved = await Promise.all(Array.from({ length: 25 }, (_, n) => keepSheet(store, { ...sheet, id: asId<SheetId>(`s${n}`) })));
    expect(saved.every((outcome) => outcome.ok)).toBe(true);
    expect(valueIn(await store.sheets.list())).toHaveLength(27);
  });
});
