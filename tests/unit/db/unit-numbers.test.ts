import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { casesCsv, type Store } from '../../../db/index.ts';
import { unitNumbersOf } from '../../../db/shop/unit-numbers.ts';
import {
  blankSheet,
  type FeatureId,
  type Observation,
  type ObservationId,
  type Sheet,
  type SheetId,
  type SlotId,
} from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { demoPack, expandCode, freshStore, valueIn, vocabularyPack } from './kit.ts';

/** The demo atlas, whose plates say part and serial number. */
const shop = async (): Promise<Store> => {
  const store = await freshStore({ expandCode });
  valueIn(await store.packs.load(vocabularyPack));
  valueIn(await store.packs.load(demoPack));
  return store;
};
const mark = (feature: string, text: string | null, kind: 'seen' | 'told' = 'seen'): Observation => ({
  id: `o-${feature}-${text}` as ObservationId,
  slot: 'nameplate' as SlotId,
  feature: feature as FeatureId,
  value: { kind: 'mark', text },
  sure: { kind },
});
const part = (text: string, how: 'seen' | 'told' = 'seen') => mark('nameplate-number', text, how);
const serial = (text: string, how: 'seen' | 'told' = 'seen') => mark('nameplate-serial-text', text, how);
const unit = (id: string, observations: readonly Observation[], stamped?: string): Sheet => ({
  ...blankSheet(id as SheetId),
  title: id,
  observations,
  ...(stamped === undefined ? {} : { serial: stamped }),
});

describe('the numbers of a unit', () => {
  const says = (feature: string) =>
    (({ plate: 'part number', stamp: 'serial number', made: 'year of make' }) as const)[feature as 'plate' | 'stamp' | 'made'];
  const numbersOf = (observations: readonly Observation[], stamped?: string) => unitNumbersOf(unit('one', observations, stamped), says);

  test('[P8] are its serial number, and what is read off it as one or as a part number: seen, and letters', () => {
    expect(numbersOf([mark('plate', 'AB-1'), mark('stamp', 'S7'), mark('made', '1998'), mark('paint', 'RED')], 'H-11')).toEqual([
      { says: 'serial number', text: 'H-11' },
      { says: 'part number', text: 'AB-1' },
      { says: 'serial number', text: 'S7' },
    ]);
    expect(numbersOf([mark('plate', 'AB-1', 'told'), mark('stamp', null)])).toEqual([]);
    expect(numbersOf([{ ...mark('stamp', 'x'), value: { kind: 'count', from: 7, to: 7 } }])).toEqual([]);
  });

  test('[P8] a number of signs alone is nobody else’s', async () => {
    const store = await shop();
    valueIn(await keepSheet(store, unit('first', [], '—')));
    valueIn(await keepSheet(store, unit('second', [serial('S7')], '—')));
    expect(valueIn(await store.cases.before(unit('new', [], '– –')))).toEqual({ same: [], more: 0 });
    expect(valueIn(await store.cases.before(unit('new', [serial('s-7')], '– –'))).same.map(({ title }) => title)).toEqual(['second']);
  });
});

describe('a unit that comes back', () => {
  test('[P8] is found by its serial number, wherever that is stamped and however it is written, and not by what is told', async () => {
    const store = await shop();
    valueIn(await keepSheet(store, unit('first', [], 'H-11 207')));
    valueIn(await keepSheet(store, unit('second', [serial('h11207'), part('AB-1')])));
    valueIn(await keepSheet(store, unit('third', [serial('H11207', 'told')], 'H-11 208')));
    const found = async (sheet: Sheet) =>
      valueIn(await store.cases.before(sheet)).same.map(({ title, by }) => `${title}: ${by.says} ${by.text}`);
    const both = ['second: serial number h11207', 'first: serial number H-11 207'];
    expect(await found(unit('new', [], 'H11/207'))).toEqual(both);
    expect(await found(unit('new', [serial('Ｈ11-207')]))).toEqual(both);
    expect(await found(unit('new', [serial('H-11 207', 'told')])), 'told is a claim').toEqual([]);
    expect(await found(unit('new', [serial('H-11 20')])), 'a piece of a number is another number').toEqual([]);
    expect(await found(unit('new', []))).toEqual([]);
    expect(await found(unit('second', [serial('H11207')])), 'a case is not before itself').toEqual(['first: serial number H-11 207']);
    expect(await found(unit('new', [part('H11207')])), 'a part number is no serial number').toEqual([]);
  });

  test('[P8] a part number leads to the cases that have it, unless two serial numbers say that the units are two; five, and how many more', async () => {
    const store = await shop();
    for (let n = 1; n <= 7; n += 1) valueIn(await keepSheet(store, unit(`unit ${n}`, [part('AB-1'), ...(n === 7 ? [serial('S7')] : [])])));
    const of = async (sheet: Sheet) => {
      const { same, more } = valueIn(await store.cases.before(sheet));
      return { titles: same.map(({ title, by }) => `${title} ${by.says}`), more };
    };
    expect(await of(unit('new', [part('ab 1')]))).toEqual({
      titles: ['unit 7 part number', 'unit 6 part number', 'unit 5 part number', 'unit 4 part number', 'unit 3 part number'],
      more: 2,
    });
    expect(await of(unit('new', [part('AB-1')], 'S8'))).toEqual({
      titles: ['unit 6 part number', 'unit 5 part number', 'unit 4 part number', 'unit 3 part number', 'unit 2 part number'],
      more: 1,
    });
    expect((await of(unit('new', [part('AB-1')], 's-7'))).titles[0]).toBe('unit 7 serial number');
  });

  test('[P8] what is stamped follows the sheet: corrected, the old number finds it no more; removed, nothing does', async () => {
    const store = await shop();
    valueIn(await keepSheet(store, unit('first', [], 'H-11 207')));
    valueIn(await keepSheet(store, unit('first', [], 'H-11 270')));
    const titles = async (stamped: string) => valueIn(await store.cases.before(unit('new', [], stamped))).same.map(({ title }) => title);
    expect([await titles('H-11 207'), await titles('H11270')]).toEqual([[], ['first']]);
    expect(
      valueIn(await store.cases.open('first' as SheetId, null)).history.map(({ sheet }) => sheet.serial),
      'both are in its history',
    ).toEqual(['H-11 207', 'H-11 270']);
    valueIn(await store.sheets.remove('first' as SheetId));
    expect(await titles('H11270')).toEqual([]);
  });

  test('[P8] [P9] a case taken in from a file is found by every number stamped on its unit', async () => {
    const [there, here] = [await shop(), await shop()];
    const sheet = unit('second', [serial('h11207'), part('AB-1')]);
    valueIn(await keepSheet(there, sheet));
    const { bytes } = valueIn(await there.cases.write(sheet.id));
    valueIn(await here.cases.takeIn(bytes, 'case.zip', { as: null, who: '' }));
    const found = async (observation: Observation) => valueIn(await here.cases.before(unit('new', [observation]))).same.length;
    expect([await found(serial('H11207')), await found(part('AB-1')), await found(serial('AB-1'))]).toEqual([1, 1, 0]);
  });

  test('[P8] the list of cases finds by serial and plate number, with or without spaces and signs, and the table has both', async () => {
    const store = await shop();
    valueIn(await keepSheet(store, unit('first', [part('AB-1')], 'H-11 207')));
    valueIn(await keepSheet(store, unit('second', [serial('K 9')])));
    const titles = async (text: string) => valueIn(await store.cases.list({ text })).map(({ title }) => title);
    expect(await titles('h11207')).toEqual(['first']);
    expect(await titles('H-11 207')).toEqual(['first']);
    expect(await titles('ab1')).toEqual(['first']);
    expect(await titles('k9')).toEqual(['second']);
    expect(await titles('first h11207')).toEqual(['first']);
    expect(await titles('second h11207')).toEqual([]);
    expect(await titles('–')).toEqual([]);
    const rows = Papa.parse<Record<string, string>>(casesCsv(valueIn(await store.cases.list({ text: 'ab1' }))), { header: true }).data;
    expect(rows[0]).toMatchObject({ 'serial number': 'H-11 207', 'part number on the plate': 'AB-1' });
    expect(valueIn(await store.cases.list({ text: 'ab1' }))[0]?.numbers).toEqual([
      { says: 'serial number', text: 'H-11 207' },
      { says: 'part number', text: 'AB-1' },
    ]);
  });
});
