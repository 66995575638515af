import ExcelJS from 'exceljs';
import { describe, expect, test } from 'vitest';
import { cellsHanded, listingCells, listingHeadingRow, matchListings, readOffers, sheetIn } from '../../../db/index.ts';
import type { ListingUse } from '../../../db/tables/listing-columns.ts';
import type { ListingsItem } from '../../../reasoner/index.ts';

const read = (handed: string | Buffer, columns?: readonly ListingUse[], name = 'quay.txt') => {
  const cells = cellsHanded(typeof handed === 'string' ? Buffer.from(handed) : handed, name, listingCells);
  if (!cells.ok) throw new Error(cells.trouble.sentence);
  const sheet = sheetIn(cells.value, null);
  if (sheet === undefined) throw new Error('no sheet');
  const headings = listingHeadingRow(sheet.rows);
  const matches = matchListings(sheet.rows, headings);
  const uses = columns ?? matches.map(({ use }) => use);
  return { headings, uses, matches, items: readOffers(sheet, { sheet: null, headings, columns: [...uses] }, name) };
};
const offers = (items: readonly ListingsItem[]) => items.map((item) => ('offer' in item ? item.offer : item));

describe('a table of listings', () => {
  test.each([',', ';', '\t', '|'])(
    '[I1] it is taken apart by “%s”, its columns known under headings in any order and any language of them',
    (by) => {
      const { headings, uses, items } = read(
        `${['Preis', 'Link', 'Beschreibung', 'Titel', 'Where seen'].join(by)}\n${['12', 'https://a.example', 'b c', 'd', 'e'].join(by)}`,
      );
      expect([headings, uses]).toEqual([1, ['price', 'link', 'description', 'title', 'carried']]);
      expect(offers(items)).toEqual([
        {
          row: 2,
          title: 'd',
          words: 'd\nb c',
          price: '12',
          link: 'https://a.example',
          carried: [{ heading: 'Where seen', text: 'e' }],
          notes: [],
        },
      ]);
    },
  );

  test('[I2] headings may stand lower, be spelled amiss, and what says them twice is read or carried along', () => {
    const { headings, uses, matches } = read('Gathered on Friday;;;;\nTitel;Descripton;Price (EUR);Cost;Model\na;b;1;2;c');
    expect([headings, uses]).toEqual([2, ['title', 'description', 'price', 'carried', 'words']]);
    expect(matches.map(({ sure }) => sure)).toEqual(['certain', 'likely', 'certain', 'likely', 'certain']);
    expect(matches[3]?.why).toBe('Another column is the price already.');
  });

  test('[I2] without headings all words are read, addresses and figures are known by what they are', () => {
    const { headings, uses, items } = read('Petrel 13;€ 1.250,00;as taken off;https://a.example/1\nRowan;300;two of them;www.a.example');
    expect([headings, uses]).toEqual([0, ['title', 'price', 'words', 'link']]);
    expect(offers(items)[1]).toMatchObject({ row: 2, title: 'Rowan', words: 'Rowan\ntwo of them', price: '300', link: 'www.a.example' });
    expect(offers(read('one line of words\nanother, with a comma').items).map((one) => 'words' in one && one.words)).toEqual([
      'one line of words',
      'another\nwith a comma',
    ]);
  });

  test('[I2] a column may be taken otherwise; more words are read behind their heading', () => {
    const { items } = read('Title;Blades\nPetrel 13;11', ['title', 'words']);
    expect(offers(items)[0]).toMatchObject({ words: 'Petrel 13\nBlades: 11', carried: [] });
  });

  test('[I4] a row with a quote that is not closed is told with row, column and how many lines went into it; those above are read', () => {
    const { items } = read('Title;Price\n"a\nb";1\nc;2\n"d;3\ne;4');
    expect(items.map((item) => item.source)).toEqual(['quay.txt, row 2', 'quay.txt, row 3', 'quay.txt, row 4']);
    expect(offers(items)[0]).toMatchObject({ title: 'a\nb', price: '1' });
    expect(offers(items)[2]).toMatchObject({
      faults: [
        'quay.txt, row 4, column A “Title”: A quote is opened here and not closed where it ought to be, and one line below went into the cell: "d;3\\ne;4".',
      ],
    });
  });

  test('[R6] words of 20,000 characters are read, one more is a fault of the row, and the rest goes on', () => {
    const long = (count: number) => 'x'.repeat(count);
    const { items } = read(`Title;Price\n${long(20_000)};1\n${long(20_001)};2\nc;3`);
    expect(offers(items).map((one) => ('words' in one ? one.words.length : 'faults' in one && one.faults))).toEqual([
      20_000,
      ['quay.txt, row 3, column A “Title”: 20001 characters are more than a cell may hold.'],
      1,
    ]);
    const two = read(`Title;Description\n${long(10_000)};${long(10_000)}`).items;
    expect(offers(two)[0]).toMatchObject({ faults: ['quay.txt, row 2: found 20001 characters in all its words, expected at most 20000.'] });
  });

  test('[I4] empty rows are passed over, and cells beyond the headings are carried along', () => {
    const { items } = read('Title;Price\n;\na;1;beyond');
    expect(offers(items)).toMatchObject([{ row: 3, carried: [{ heading: 'Column C', text: 'beyond' }] }]);
  });
});

/** The bytes of a workbook, made by a library that shares no code with the reader. */
const workbook = async (fill: (book: ExcelJS.Workbook) => void): Promise<Buffer> => {
  const book = new ExcelJS.Workbook();
  fill(book);
  return Buffer.from(await book.xlsx.writeBuffer());
};

describe('a workbook of listings', () => {
  test('[I1] it is read like any table: figures as they are, links as what they say, and its rows as the spreadsheet counts them', async () => {
    const bytes = await workbook((book) => {
      book.addWorksheet('aside', { state: 'hidden' }).addRow(['Title', 'Price']);
      const sheet = book.addWorksheet('Quay');
      sheet.addRow(['Gathered on Friday']);
      sheet.addRow(['Titel', 'Beschreibung', 'Preis', 'Link', 'Seen on']);
      const link = 'https://a.example/1';
      sheet.addRow(['Petrel 13', 'eleven blades,\nas taken off', 1250.5, { text: link, hyperlink: link }, 'fair']);
      sheet.addRow([]);
      sheet.addRow([{ richText: [{ text: 'Rowan ' }, { text: 'IV-18', font: { bold: true } }] }, '', 300, '', '']);
      sheet.getCell('C3').numFmt = '#,##0.00 "€"';
    });
    const { headings, uses, items } = read(bytes, undefined, 'quay.xlsx');
    expect([headings, uses]).toEqual([2, ['title', 'description', 'price', 'link', 'carried']]);
    expect(items.map(({ source }) => source)).toEqual(['quay.xlsx, row 3', 'quay.xlsx, row 5']);
    expect(offers(items)).toMatchObject([
      {
        row: 3,
        words: 'Petrel 13\neleven blades,\nas taken off',
        price: '1250.5',
        link: 'https://a.example/1',
        carried: [{ heading: 'Seen on', text: 'fair' }],
      },
      { row: 5, title: 'Rowan IV-18', price: '300', link: null, carried: [] },
    ]);
  });

  test('[I4] a cell that holds no words but an error is a fault of its row, by the cell’s place, and the rows beside it are read', async () => {
    const bytes = await workbook((book) => {
      const sheet = book.addWorksheet('Quay');
      sheet.addRow(['Title', 'Price']);
      sheet.addRow(['Petrel 13', 1]);
      sheet.addRow([{ error: '#REF!' }, 2]);
      sheet.addRow([{ formula: 'A2', result: 'Petrel 13 again' }, 3]);
    });
    const { items } = read(bytes, undefined, 'quay.xlsx');
    expect(offers(items)).toMatchObject([
      { title: 'Petrel 13' },
      { faults: [expect.stringMatching(/^quay\.xlsx, row 3, column A “Title”: /)] },
      { title: 'Petrel 13 again', price: '3' },
    ]);
  });

  test('[R6] bytes that begin as a workbook are one whatever it is called, and half of one is refused by name', async () => {
    const bytes = await workbook((book) => void book.addWorksheet('Quay').addRows([['Title'], ['Petrel 13']]));
    expect(offers(read(bytes, undefined, 'pasted cells').items)).toMatchObject([{ title: 'Petrel 13' }]);
    expect(cellsHanded(bytes.subarray(0, bytes.length / 2), 'quay.xlsx', listingCells)).toMatchObject({
      ok: false,
      trouble: { place: expect.stringContaining('quay.xlsx') },
    });
  });
});

describe('cells that were copied and pasted', () => {
  test('[I1] they are parted by tabs, with a cell of several lines in quotes, and are told by their rows', () => {
    const { headings, uses, items } = read(
      'Title\tDescription\tPrice\r\nPetrel 13\t"eleven blades,\nsaid ""as new"""\t1.250,00\r\nRowan\t\t300\r\n',
      undefined,
      'pasted cells',
    );
    expect([headings, uses]).toEqual([1, ['title', 'description', 'price']]);
    expect(items.map(({ source }) => source)).toEqual(['pasted cells, row 2', 'pasted cells, row 3']);
    expect(offers(items)).toMatchObject([
      { words: 'Petrel 13\neleven blades,\nsaid "as new"', price: '1.250,00' },
      { title: 'Rowan', words: 'Rowan', price: '300' },
    ]);
  });

  test('[I2] without their headings, and one cell by itself, they are read too', () => {
    const { headings, uses, items } = read('Petrel 13 for a crane\t€ 120\nRowan IV-18\t€ 90', undefined, 'pasted cells');
    expect([headings, uses]).toEqual([0, ['title', 'price']]);
    expect(offers(items)[1]).toMatchObject({ row: 2, title: 'Rowan IV-18', price: '€ 90' });
    expect(offers(read('Petrel 13 with eleven blades', undefined, 'pasted cells').items)).toMatchObject([
      { row: 1, words: 'Petrel 13 with eleven blades' },
    ]);
  });
});
