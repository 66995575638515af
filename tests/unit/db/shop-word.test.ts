import { dirname, join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { casesCsv, type ShopWord, type Store } from '../../../db/index.ts';
import { mendFolder } from '../../../electron/desk/mend.ts';
import { asId, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { shopWordHeading, shopWordSentences } from '../../../reasoner/plain/shop-word.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, freshConnection, freshFolder, freshStore, noon, smallPack, troubleIn, valueIn } from './kit.ts';

const mine = asId<SheetId>('mine');
const shops: ShopWord = {
  by: 'shop',
  person: 'Ines',
  day: '2026-03-04',
  decision: 'It goes out as a rebuilt unit.',
  ground: 'measured on the bench',
};
const makers: ShopWord = {
  by: 'maker',
  person: 'Osk',
  day: '2026-03-10',
  decision: 'The plate is theirs.',
  ground: 'their letter of 9 March 2026',
};

const aCase = async (file?: string): Promise<{ store: Store; clock: { now: string }; sheet: Sheet }> => {
  const clock = { now: '2026-03-04T12:00:00.000Z' };
  const store = await filledStore({ now: () => new Date(clock.now), ...(file === undefined ? {} : { file }) });
  const sheet = { ...valueIn(await store.sheets.open(asId<SheetId>('found-01'))), id: mine };
  valueIn(await keepSheet(store, sheet, 'Marit'));
  return { store, clock, sheet };
};

describe('what the shop or the maker decided', () => {
  test('[P6] is kept each time it is said; the last holds, and what was taken back stays in what was said', async () => {
    const { store, clock } = await aCase();
    expect(valueIn(await store.cases.open(mine, null)).words).toEqual([]);
    valueIn(await store.cases.say(mine, shops, 'Marit'));
    valueIn(await store.cases.say(mine, shops, 'Osk'));
    clock.now = '2026-03-11T12:00:00.000Z';
    valueIn(await store.cases.say(mine, makers, 'Osk'));
    expect(valueIn(await store.cases.word(mine))).toEqual(makers);
    clock.now = '2026-03-12T12:00:00.000Z';
    valueIn(await store.cases.say(mine, null, 'Ines'));
    valueIn(await store.cases.say(mine, null, 'Ines'));
    const said = valueIn(await store.cases.say(mine, makers, 'Ines')).words;
    expect(said.map(({ at, who, word }) => ({ at, who, word }))).toEqual([
      { at: '2026-03-04T12:00:00.000Z', who: 'Marit', word: shops },
      { at: '2026-03-11T12:00:00.000Z', who: 'Osk', word: makers },
      { at: '2026-03-12T12:00:00.000Z', who: 'Ines', word: null },
      { at: '2026-03-12T12:00:00.000Z', who: 'Ines', word: makers },
    ]);
    expect(new Set(said.map(({ version }) => version)).size, 'each is another saying').toBe(4);
    expect(valueIn(await store.cases.open(mine, '2026-03-11T23:00:00.000Z')).words.map(({ word }) => word)).toEqual([shops, makers]);
    expect(troubleIn(await store.cases.say(asId('nowhere'), shops, '')).code).toBe('not-found');
  });

  test('[P6] stands apart from every verdict: neither what is kept with the case nor its status changes', async () => {
    const { store, sheet } = await aCase();
    const before = valueIn(await store.cases.open(mine, null));
    const [listed] = valueIn(await store.cases.list({}));
    valueIn(await store.cases.say(mine, shops, 'Marit'));
    const { words, ...after } = valueIn(await store.cases.open(mine, null));
    expect({ ...after, words: [] }).toEqual(before);
    expect(valueIn(await store.cases.list({}))).toEqual([{ ...listed, word: shops }]);
    valueIn(await keepSheet(store, sheet, 'Marit'));
    expect(valueIn(await store.cases.open(mine, null)).history, 'the same sheet judged again is the same verdict').toHaveLength(1);
    expect(words).toHaveLength(1);
  });

  test('[P6] goes with its case, and one that is opened anew has none', async () => {
    const { store, sheet } = await aCase();
    valueIn(await store.cases.say(mine, shops, ''));
    valueIn(await store.sheets.remove(mine));
    expect(valueIn(await store.cases.word(mine))).toBeNull();
    valueIn(await keepSheet(store, sheet));
    expect(valueIn(await store.cases.open(mine, null)).words).toEqual([]);
  });

  test('[P6] is in the table for spreadsheets, where none of it is reckoned out', async () => {
    const { store } = await aCase();
    valueIn(await store.cases.say(mine, { ...makers, decision: '=1+1' }, ''));
    const [row] = Papa.parse<Record<string, string>>(casesCsv(valueIn(await store.cases.list({}))), { header: true }).data;
    expect(row).toMatchObject({
      'decided beside the verdict': 'The maker’s decision, as told to the shop',
      'decided by, or told by': 'Osk',
      'decided on': '2026-03-10',
      decision: "'=1+1",
      ground: 'their letter of 9 March 2026',
    });
  });

  test('[H5] is not said over what somebody else said in the meantime: the second is told, and nothing is written', async () => {
    const { store } = await aCase();
    const [first] = valueIn(await store.cases.say(mine, shops, 'Marit', null)).words;
    const late = troubleIn(await store.cases.say(mine, makers, 'Osk', null));
    expect(late).toMatchObject({ code: 'changed-since', sentence: expect.stringContaining('What was decided of the case') });
    expect(valueIn(await store.cases.word(mine))).toEqual(shops);
    const taken = valueIn(await store.cases.say(mine, null, 'Osk', first?.version as never)).words.at(-1);
    expect(troubleIn(await store.cases.say(mine, makers, 'Marit', first?.version as never)).code, 'what was taken back, too').toBe(
      'changed-since',
    );
    const [again] = [valueIn(await store.cases.say(mine, shops, 'Marit', taken?.version as never)).words.at(-1)];
    expect(again?.version, 'said again at the same time by the same, it is another saying').not.toBe(first?.version);
    expect(valueIn(await store.cases.say(mine, makers, 'Marit', again?.version as never)).words.at(-1)?.word).toEqual(makers);
  });

  test('[H5] a case with a word somebody else has written since is not removed unseen', async () => {
    const { store } = await aCase();
    const { whole } = valueIn(await store.sheets.opened(mine));
    valueIn(await store.cases.say(mine, shops, 'Marit', null));
    expect(troubleIn(await store.sheets.remove(mine, whole)).code).toBe('changed-since');
    valueIn(await store.sheets.remove(mine, valueIn(await store.sheets.opened(mine)).whole));
  });

  test('[P3] comes out of a file that is read for mending, and goes into a new one', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const { store } = await aCase(file);
    valueIn(await store.cases.say(mine, shops, 'Marit'));
    valueIn(await store.cases.say(mine, makers, 'Osk'));
    const { words } = valueIn(await store.cases.open(mine, null));
    await store.close();
    // A page nothing leads to is damage, and leaves all else as it is.
    const onDisk = await freshConnection(file);
    await onDisk.script(`pragma writable_schema = on; delete from sqlite_schema where name = 'sheets_by_pack'`);
    await onDisk.close();
    expect(valueIn(await mendFolder(dirname(file), dirname(smallPack), noon)).state).toBe('mended');
    const anew = await freshStore({ file });
    expect(valueIn(await anew.cases.open(mine, null)).words).toEqual(words);
  });
});

describe('its wording', () => {
  test('[P6] says whose decision it is: the maker’s is as it was told to the shop', () => {
    expect([shopWordHeading(shops), ...shopWordSentences(shops)]).toEqual([
      'The shop’s own word',
      'The shop’s own word, by Ines on 4 March 2026: “It goes out as a rebuilt unit.”',
      'The ground given for it: measured on the bench.',
    ]);
    expect([shopWordHeading(makers), ...shopWordSentences({ ...makers, ground: ' Serial register, page 12. ' })]).toEqual([
      'The maker’s decision, as told to the shop',
      'The maker’s decision as told to the shop by Osk, decided on 10 March 2026: “The plate is theirs.”',
      'The ground given for it: Serial register, page 12.',
    ]);
  });
});
