import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { pricesCsv, type StockLine, type StockLineId, stockCsv, versionOf } from '../../../db/index.ts';
import { unguarded } from '../../../db/shop/csv.ts';
import { asId, type PartId, type SourceId } from '../../../reasoner/index.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { filledStore, freshConnection, freshFolder, freshStore, noon, troubleIn, valueIn } from './kit.ts';
import { jpeg, png, webp } from './photos/pictures.ts';

const inWords: StockLine = {
  part: null,
  words: 'Heat shield, three slots',
  number: 'COBBLE 7',
  many: 3,
  condition: 'used, good as it is',
  price: null,
  place: 'Rack 2',
  note: '',
};
const ofPart: StockLine = {
  ...inWords,
  part: asId('bh-tern'),
  words: '',
  number: '',
  price: { amount: 12.5, money: 'XTS' },
  place: 'Rack 1',
};
const who = 'Ines';

describe('what the shop says of itself', () => {
  test('[P10] nothing said is told as nothing; each key is kept, versioned and refused by itself', async () => {
    const { settings } = await filledStore();
    expect(valueIn(await settings.all()).money).toEqual({ value: null, version: null, at: null, who: '' });
    const money = { code: 'XTS', written: 'crowns', before: false, decimals: 2, hour: 41.5 };
    const first = valueIn(await settings.save('money', money, who, null));
    valueIn(await settings.save('people', { names: ['Ines', 'Osk'] }, who, null));
    expect(first).toBe(versionOf(money));
    const refused = troubleIn(await settings.save('money', { ...money, hour: null }, 'Osk', null));
    expect([refused.code, refused.place]).toEqual(['changed-since', 'settings money']);
    expect(refused.sentence).toMatch(/^What is said of money was made elsewhere/);
    valueIn(await settings.save('money', { ...money, hour: null }, 'Osk', first));
    expect(valueIn(await settings.all()).money).toEqual({
      value: { ...money, hour: null },
      version: versionOf({ ...money, hour: null }),
      at: noon.toISOString(),
      who: 'Osk',
    });
    expect(valueIn(await settings.all()).people.value.names).toEqual(['Ines', 'Osk']);
  });

  test('[P10] the picture of a letterhead is cleaned, kept by its hash, stays when the words change, and goes when it is taken out or another comes', async () => {
    const file = `${freshFolder()}/atlas.sqlite`;
    const { settings } = await freshStore({ file });
    const files = async () =>
      (await (await freshConnection(file)).all<{ type: string }>('select type from kept_files')).map(({ type }) => type);
    expect(troubleIn(await settings.logo()).code).toBe('not-found');
    const { logo } = valueIn(await settings.setLogo({ name: 'sign.jpg', bytes: jpeg }, who, null));
    valueIn(await settings.save('letterhead', { name: 'Saltmarsh', lines: ['Quay 4'], logo: null }, who));
    expect(valueIn(await settings.all()).letterhead.value).toEqual({ name: 'Saltmarsh', lines: ['Quay 4'], logo });
    expect(valueIn(await settings.logo()).type).toBe('image/jpeg');
    valueIn(await settings.setLogo({ name: 'sign.png', bytes: png }, who));
    expect(await files()).toEqual(['image/png']);
    expect(troubleIn(await settings.setLogo({ name: 'sign.webp', bytes: webp }, who)).code).toBe('photo-unreadable');
    const large = Buffer.concat([jpeg.subarray(0, -2), Buffer.alloc(limits.logoBytes, 7), jpeg.subarray(-2)]);
    expect(troubleIn(await settings.setLogo({ name: 'sign.jpg', bytes: large }, who)).code).toBe('photo-too-large');
    const altered = await freshConnection(file);
    await altered.run('update kept_files set bytes = zeroblob(size)');
    expect(troubleIn(await settings.logo()).code).toBe('photo-altered');
    valueIn(await settings.setLogo({ name: 'sign.png', bytes: png }, who));
    expect(valueIn(await settings.logo()).bytes.equals(png)).toBe(true);
    valueIn(await settings.setLogo(null, who));
    expect(await files()).toEqual([]);
  });
});

describe('the stock list', () => {
  test('[P11] a line is of a part, by its name in the atlas, or of words; the list is by where they lie; a price is known or it is not', async () => {
    const { stock, packs } = await filledStore();
    const words = valueIn(await stock.save(null, inWords, { who }));
    const part = valueIn(await stock.save(null, ofPart, { who }));
    expect([words.name, words.numbers, words.slot, words.price]).toEqual(['Heat shield, three slots', ['COBBLE 7'], null, null]);
    expect([part.name, part.slot, part.words, part.price]).toEqual([
      part.words,
      'bearing-housing',
      part.name,
      { amount: 12.5, money: 'XTS' },
    ]);
    expect(valueIn(await stock.list())).toEqual([part, words]);
    expect(troubleIn(await stock.save(null, { ...ofPart, part: asId('bh-heron') }, { who })).code).toBe('not-found');
    // The pack goes; what lies on the shelf stays, and may still be written.
    valueIn(await packs.remove('small'));
    expect(valueIn(await stock.list())[0]).toMatchObject({ part: 'bh-tern', name: part.name, slot: null, numbers: [] });
    expect(valueIn(await stock.save(part.id, { ...ofPart, many: 1 }, { who })).words).toBe(part.words);
  });

  test('[P11] every state of a line stays, by day and by who; a line taken off is no more on the list, and its states stay', async () => {
    let day = 1;
    const { stock } = await filledStore({ now: () => new Date(`2026-03-0${day}T12:00:00Z`) });
    const { id } = valueIn(await stock.save(null, inWords, { who }));
    day = 2;
    expect(valueIn(await stock.take(id, 2, 'Osk'))).toMatchObject({ many: 1, state: 2, who: 'Osk' });
    expect(troubleIn(await stock.take(id, 2, 'Osk'))).toMatchObject({
      code: 'stock-short',
      sentence: 'The list has 1 of “Heat shield, three slots” left, so 2 cannot be taken. Nothing was changed.',
    });
    day = 3;
    // What says nothing else is no new state.
    expect(valueIn(await stock.save(id, { ...inWords, many: 1 }, { who: 'Wenna' })).state).toBe(2);
    valueIn(await stock.take(id, 1, 'Osk'));
    valueIn(await stock.remove(id, { who }));
    expect(valueIn(await stock.list())).toEqual([]);
    expect(valueIn(await stock.history(id)).map(({ at, who: by, line }) => [at.slice(0, 10), by, line?.many ?? null])).toEqual([
      ['2026-03-03', 'Ines', null],
      ['2026-03-03', 'Osk', 0],
      ['2026-03-02', 'Osk', 1],
      ['2026-03-01', 'Ines', 3],
    ]);
    for (const gone of [await stock.take(id, 1, who), await stock.remove(id, { who }), await stock.save(id, inWords, { who })])
      expect(troubleIn(gone).code).toBe('not-found');
    expect(troubleIn(await stock.history(asId<StockLineId>('nothing'))).code).toBe('not-found');
  });

  test('[H5] who saves or takes off a line that is otherwise by now is told, and nothing is lost', async () => {
    const { stock } = await filledStore();
    const read = valueIn(await stock.save(null, inWords, { who }));
    const other = valueIn(await stock.save(read.id, { ...inWords, many: 2 }, { who: 'Osk', madeAgainst: read.version }));
    const late = { who, madeAgainst: read.version };
    expect(troubleIn(await stock.save(read.id, { ...inWords, note: 'one chipped' }, late))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringMatching(/^The line “Heat shield, three slots” of the stock list was changed elsewhere/),
    });
    expect(troubleIn(await stock.remove(read.id, late)).code).toBe('changed-since');
    expect(valueIn(await stock.list())).toEqual([other]);
    valueIn(await stock.remove(read.id, { who, madeAgainst: other.version }));
    expect(troubleIn(await stock.save(read.id, inWords, { who, madeAgainst: other.version })).sentence).toContain('was removed elsewhere');
    // Decided that it shall be there again.
    expect(valueIn(await stock.save(read.id, inWords, { who, madeAgainst: null }))).toMatchObject({ state: 4, many: 3 });
  });
});

describe('the stock list as a table', () => {
  const written = async (lines: readonly StockLine[]) => {
    const { stock } = await filledStore();
    for (const line of lines) valueIn(await stock.save(null, line, { who }));
    const held = valueIn(await stock.list());
    return { stock, held, text: stockCsv(held) };
  };
  const faults = async (text: string) => {
    const { stock } = await filledStore();
    const { code, sentence, all } = troubleIn(await stock.lookAtTable(text, 'stock.csv'));
    expect(code).toBe('stock-table-invalid');
    return all?.map((one) => one.sentence) ?? [sentence];
  };

  test('[P11] written and read again it changes nothing; what was edited in it is changed, and nothing else; what it leaves out stays', async () => {
    const { stock, held, text } = await written([inWords, ofPart, { ...inWords, words: '=1+1;=2', note: 'a "quoted", note' }]);
    expect(valueIn(await stock.takeInTable(text, 'stock.csv', who))).toEqual({ fresh: 0, changed: 0, same: 3 });
    expect(valueIn(await stock.list())).toEqual(held);
    const [head, ...rows] = text.trimEnd().split('\r\n');
    const edited = [head, (rows[0] ?? '').replace(',3,', ',5,'), ',,,Oil line,,4,NEW,"2,5",xts,Rack 9,'].join('\r\n');
    expect(valueIn(await stock.lookAtTable(edited, 'stock.csv'))).toEqual({ fresh: 1, changed: 1, same: 0 });
    expect(valueIn(await stock.list())).toEqual(held);
    expect(valueIn(await stock.takeInTable(edited, 'stock.csv', 'Osk'))).toEqual({ fresh: 1, changed: 1, same: 0 });
    const after = valueIn(await stock.list());
    expect(after.length).toBe(4);
    expect(after.find(({ words }) => words === 'Oil line')).toMatchObject({
      many: 4,
      condition: 'new',
      price: { amount: 2.5, money: 'XTS' },
      place: 'Rack 9',
    });
    expect(after.find(({ id }) => id === held[0]?.id)).toMatchObject({ many: 5, state: 2, who: 'Osk' });
    // The same table once more rests on a state that is no longer there.
    const again = troubleIn(await stock.takeInTable(edited.replace(',5,', ',6,'), 'stock.csv', who));
    expect(again.sentence).toMatch(/“.*” was changed on the list since this table was written \(Osk, 2026-03-04\)/);
    expect(valueIn(await stock.list())).toEqual(after);
  });

  test('[R6] no cell of it is a formula, and what was put before one is gone when it is read', async () => {
    const { text } = await written([{ ...inWords, words: '=1+1;=2' }]);
    expect(text).toContain("'=1+1;'=2");
    for (const cell of ['it’s', "'tis", 'a;b', "x'=y"]) expect(unguarded(cell)).toBe(cell);
  });

  test('[P11] every fault is named by row and column, and nothing of the table is kept', async () => {
    const heads = 'line,state,part,what,how many,condition,price,money';
    expect(
      await faults(
        [
          heads,
          ',,,,1,,,',
          ',,,A,some,fair,0,XTS',
          ',,,B,1,new,3,crowns',
          'l,,,C,1,,,',
          'l,1,,D,1,,,',
          ',,bh-heron,,1,,,',
          ',,,E,1,,,,more',
        ].join('\n'),
      ),
    ).toEqual([
      'Row 2, “what”: found nothing, expected what it is, or the id of a part in “part”.',
      'Row 3, “how many”: found “some”, expected a whole number, 0 or more.',
      'Row 3, “condition”: found “fair”, expected new, or used, good as it is, or used, to be worked on, or whole core, to be rebuilt, or good for its pieces only, or not looked at yet.',
      'Row 3, “price”: found “0”, expected an amount above 0, or nothing where it is not known.',
      'Row 4, “money”: found “crowns”, expected three letters, as ISO 4217 has them.',
      'Row 5, “state”: found nothing, expected the figure this line had when the table was written.',
      'Row 6, “line”: found the line of row 5 again, expected each line once.',
      'Row 8: found 9 cells, expected 8, as the first row has.',
    ]);
    expect(await faults(`${heads}\n,,bh-heron,,1,,,\nl-1,1,,A,1,,,`)).toEqual([
      'Row 2, “part”: the atlas has no part “bh-heron”.',
      'Row 3, “line”: the list has no line “l-1”. Leave the column empty for a new line.',
    ]);
    expect(await faults('what;how many;colour\nA;1;red')).toEqual([expect.stringContaining('found the heading “colour”')]);
    expect(await faults('what,number\nA,1')).toEqual([expect.stringContaining('at least “how many”')]);
    expect(await faults('what,how many\n"A,1')).toEqual([
      'Row 2: found a quote that is opened and not closed, expected a quote at both ends of the cell.',
    ]);
  });

  test('[R6] [H5] the list is no longer than it may be, and two who write at once do not both', async () => {
    const file = `${freshFolder()}/atlas.sqlite`;
    const [one, two] = [await freshStore({ file }), await freshStore({ file })];
    await (await freshConnection(file)).script(`
      with recursive c (n) as (select 1 union all select n + 1 from c where n < ${limits.stockLines})
      insert into stock (line, n, at, who, gone, words, number, many, condition, place, note)
        select 'bolt-' || n, 1, '${noon.toISOString()}', '', 0, 'Bolt', '', 1, 'new', '', '' from c`);
    expect(troubleIn(await two.stock.save(null, inWords, { who })).sentence).toContain(`more than ${limits.stockLines} lines`);
    const first = asId<StockLineId>('bolt-1');
    const outcomes = await Promise.all([one.stock.take(first, 1, 'Ines'), two.stock.take(first, 1, 'Osk')]);
    expect(outcomes.map(({ ok }) => ok).sort()).toEqual([false, true]);
    valueIn(await one.stock.remove(first, { who }));
    valueIn(await two.stock.save(null, inWords, { who }));
  });
});

describe('what the shop asks for a part', () => {
  const said = { amount: 15.5, money: 'XTS', note: '' };
  const part = asId<PartId>('bh-tern');

  test('[P13] it is asked or it is not known, never 0; the last said holds, and who comes between is told', async () => {
    const { prices, packs } = await filledStore();
    expect(valueIn(await prices.of(part))).toEqual({ own: null, packs: [] });
    valueIn(await prices.set(part, said, who, null));
    expect(valueIn(await prices.of(part)).own).toMatchObject({ ...said, part, name: 'Tern bearing housing', at: noon.toISOString(), who });
    const late = troubleIn(await prices.set(part, { ...said, amount: 16 }, 'Osk', null));
    expect([late.code, late.place]).toEqual(['changed-since', 'price bh-tern']);
    valueIn(await prices.set(part, { ...said, amount: 17 }, 'Osk', versionOf(said)));
    expect(troubleIn(await prices.set(part, null, who, versionOf(said))).code).toBe('changed-since');
    expect(troubleIn(await prices.set(asId('bh-heron'), said, who)).code).toBe('not-found');
    valueIn(await packs.remove('small'));
    expect(valueIn(await prices.list())).toMatchObject([{ part, name: null, amount: 17 }]);
    valueIn(await prices.set(part, null, who));
    expect(valueIn(await prices.list())).toEqual([]);
  });

  test('[P13] as a table it goes out and comes in, whole or not at all, and an empty price takes a part off', async () => {
    const { prices } = await filledStore();
    const look = async (text: string) => valueIn(await prices.lookAtTable(text, 'prices.csv'));
    const take = async (text: string) => valueIn(await prices.takeInTable(text, 'prices.csv', who));
    const faults = async (text: string) =>
      (troubleIn(await prices.takeInTable(text, 'prices.csv', who)).all ?? []).map((one) => one.sentence);
    const rows = 'part;price;money\r\nbh-tern;15,5;xts\r\ncw-tern-4;3;XTS\r\n';
    expect(await look(rows)).toEqual({ fresh: 2, changed: 0, off: 0, same: 0 });
    expect(valueIn(await prices.list())).toEqual([]);
    expect(await take(rows)).toEqual({ fresh: 2, changed: 0, off: 0, same: 0 });
    expect(await take(rows)).toEqual({ fresh: 0, changed: 0, off: 0, same: 2 });
    expect(valueIn(await prices.list())).toMatchObject([
      { part: 'cw-tern-4', amount: 3, money: 'XTS', state: 1, who },
      { part, ...said, state: 1 },
    ]);
    // As it is written it changes nothing, and what is altered in it and nothing else is changed.
    const text = pricesCsv(valueIn(await prices.list()));
    expect(await take(text)).toEqual({ fresh: 0, changed: 0, off: 0, same: 2 });
    const altered = text.replace(',15.5,', ',16,').replace(',3,', ',,');
    expect(await look(altered)).toEqual({ fresh: 0, changed: 1, off: 1, same: 0 });
    valueIn(await prices.set(part, { ...said, amount: 18 }, 'Osk'));
    expect(await faults(altered)).toEqual([
      'Row 3: the price of “Tern bearing housing” was changed on the list since this table was written (Osk, 2026-03-04). Write the table anew and make the change in that.',
    ]);
    expect(valueIn(await prices.list()).map((one) => one.amount)).toEqual([3, 18]);
    // One that says of no price how it stood goes over what is there, and so does one that says what is there already.
    expect(await take('part,price\ncw-tern-4,\n')).toEqual({ fresh: 0, changed: 0, off: 1, same: 0 });
    expect(await faults(text.replace(',15.5,', ',18,'))).toEqual([
      'Row 2: the price of “cw-tern-4” was changed on the list since this table was written. Write the table anew and make the change in that.',
    ]);
    expect(await faults('part,price,money\nbh-heron,1,XTS\nbh-tern,9,XTS\n')).toEqual(['Row 2, “part”: the atlas has no part “bh-heron”.']);
    expect(await faults('part,price,money,state\n,1,XTS,\na,0,XTS,0\na,2,crowns,\n')).toEqual([
      'Row 2, “part”: found nothing, expected the id of a part.',
      'Row 3, “state”: found “0”, expected the figure this price had when the table was written, or nothing.',
      'Row 3, “price”: found “0”, expected an amount above 0, or nothing to take it off the list.',
      'Row 4, “part”: found the part of row 3 again, expected each part once.',
      'Row 4, “money”: found “crowns”, expected three letters, as ISO 4217 has them.',
    ]);
    expect(await faults('number,price\n1,2')).toEqual([
      'Row 1: found the heading “number”, expected only part, state, name, price, money, note.',
      'Row 1: found the headings number, price, expected at least “part” and “price”.',
    ]);
    expect(valueIn(await prices.list()).map((one) => one.amount)).toEqual([18]);
  });

  test('[P13] what was asked for a part is told from the newest, also once it is off the list', async () => {
    const { prices } = await filledStore();
    expect(troubleIn(await prices.history(part)).code).toBe('not-found');
    valueIn(await prices.set(part, said, who));
    valueIn(await prices.set(part, said, 'Osk'));
    valueIn(await prices.set(part, { ...said, amount: 16 }, 'Osk'));
    valueIn(await prices.set(part, null, ''));
    const at = noon.toISOString();
    expect(valueIn(await prices.history(part))).toEqual([
      { at, who: '', price: null },
      { at, who: 'Osk', price: { ...said, amount: 16 } },
      { at, who, price: said },
    ]);
  });

  test('[P13] two who write the list at once: one of them is told, and nothing of it is half done', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const one = await filledStore({ file });
    const two = await freshStore({ file });
    const asked = (n: number) => `part,price,money\nbh-tern,${n},XTS\ncw-tern-4,${n},XTS\n`;
    for (let n = 1; n <= 20; n += 2) {
      await Promise.all([one.prices.takeInTable(asked(n), 'a.csv', 'Ines'), two.prices.takeInTable(asked(n + 1), 'b.csv', 'Osk')]);
      const [a, b] = valueIn(await one.prices.list());
      expect(a?.amount).toBe(b?.amount);
    }
    const states = [valueIn(await one.prices.history(part)).length, valueIn(await one.prices.history(asId('cw-tern-4'))).length];
    expect(states[0]).toBe(states[1]);
  });
});

describe('papers', () => {
  const about = { kind: 'part', id: asId<PartId>('bh-tern') } as const;
  const source = { kind: 'source', id: asId<SourceId>('shop-book') } as const;
  const pdf = Buffer.from('%PDF-1.7\n\0 a drawing');
  const paper = { name: 'sheet.pdf', title: 'the supplier’s sheet', bytes: pdf };

  test('[P14] one is kept once whatever it stands beside, told by its bytes, and goes with the last place it is in', async () => {
    const file = `${freshFolder()}/atlas.sqlite`;
    const { documents, packs } = await filledStore({ file });
    const files = async () => (await (await freshConnection(file)).all('select id from kept_files')).length;
    const [kept] = valueIn(await documents.add(about, paper, who));
    if (kept === undefined) throw new Error('nothing was kept');
    expect(kept).toMatchObject({ about, name: 'sheet.pdf', title: paper.title, type: 'application/pdf', size: pdf.length, who });
    valueIn(await documents.add(source, { ...paper, name: 'again.txt', title: '' }, who));
    expect(await files()).toBe(1);
    expect(valueIn(await documents.bytes(kept.file)).bytes.equals(pdf)).toBe(true);
    valueIn(await documents.add(source, { name: 'letter.pdf', title: 'a letter', bytes: Buffer.from('Dear Osk') }, who));
    expect(valueIn(await documents.of([source, about])).map(({ n, type, title }) => [n, type, title])).toEqual([
      [1, 'application/pdf', ''],
      [2, 'text/plain', 'a letter'],
      [1, 'application/pdf', 'the supplier’s sheet'],
    ]);
    // Said again, it is told anew in its old place.
    expect(valueIn(await documents.add(source, { ...paper, title: 'the sheet' }, 'Osk')).map(({ n, title }) => [n, title])).toEqual([
      [1, 'the sheet'],
      [2, 'a letter'],
    ]);
    valueIn(await packs.remove('small'));
    expect(valueIn(await documents.list()).length).toBe(3);
    valueIn(await documents.remove(source, kept.file));
    expect(await files()).toBe(2);
    expect(valueIn(await documents.remove(about, kept.file))).toEqual([]);
    expect(await files()).toBe(1);
    expect([troubleIn(await documents.bytes(kept.file)).code, troubleIn(await documents.remove(about, kept.file)).code]).toEqual([
      'not-found',
      'not-found',
    ]);
  });

  test('[P14] [R6] what is no paper, is too large, or is one too many is refused, and nothing is kept of it; pictures are cleaned', async () => {
    const file = `${freshFolder()}/atlas.sqlite`;
    const { documents, settings } = await filledStore({ file });
    const add = (name: string, bytes: Buffer, to: typeof about | typeof source = about) =>
      documents.add(to, { name, title: '', bytes }, who);
    for (const [name, bytes, code] of [
      ['a.pdf', Buffer.from([1, 2, 0, 3]), 'document-unreadable'],
      ['b.txt', Buffer.from([0x41, 0xff]), 'document-unreadable'],
      ['c.txt', Buffer.alloc(0), 'document-unreadable'],
      ['d.pdf', Buffer.concat([pdf, Buffer.alloc(limits.documentBytes)]), 'document-too-large'],
      ['e.jpg', jpeg.subarray(0, 40), 'photo-damaged'],
    ] as const)
      expect([name, troubleIn(await add(name, bytes)).code]).toEqual([name, code]);
    expect(troubleIn(await documents.add({ kind: 'part', id: asId<PartId>('bh-heron') }, paper, who)).code).toBe('not-found');
    const [picture] = valueIn(await add('f.png', png));
    expect(picture).toMatchObject({ type: 'image/png', size: png.length });
    for (let n = 1; n < limits.documentsOfOne; n += 1) valueIn(await add(`${n}.txt`, Buffer.from(`letter ${n}`)));
    expect(troubleIn(await add('more.txt', Buffer.from('one more'))).code).toBe('documents-too-many');
    valueIn(await add('1.txt', Buffer.from('letter 1')));
    expect(valueIn(await documents.list()).length).toBe(limits.documentsOfOne);
    // All of them together: as if one file were nearly all there may be.
    await (await freshConnection(file)).script(
      `pragma ignore_check_constraints = on; insert into kept_files values ('${'0'.repeat(64)}', 'text/plain', ${limits.documentsBytes - 2000}, x'00')`,
    );
    valueIn(await add('small.txt', Buffer.from('small'), source));
    expect(troubleIn(await add('large.txt', Buffer.alloc(2000, 65), source))).toMatchObject({
      code: 'documents-too-many',
      sentence: expect.stringContaining('256 MiB'),
    });
    // The picture of a letterhead is another's use of the same file.
    valueIn(await settings.setLogo({ name: 'sign.png', bytes: png }, who));
    if (picture !== undefined) valueIn(await documents.remove(about, picture.file));
    expect(valueIn(await settings.logo()).bytes.equals(png)).toBe(true);
  });
});
