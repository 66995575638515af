import Papa from 'papaparse';
import type { PartId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { readAmount } from '../../reasoner/plain/money.ts';
import { done, failed, type Outcome, trouble } from '../trouble.ts';
import { csvOf, unguarded } from './csv.ts';
import type { PriceSaid } from './price-shelf.ts';
import type { ShopPrice } from './stock.ts';

const columns = ['part', 'name', 'price', 'money', 'note'] as const;
type Column = (typeof columns)[number];

/** The shop's price list as a table; `name` is for who reads it. */
export const pricesCsv = (prices: readonly ShopPrice[]): string =>
  csvOf(
    columns,
    prices.map(({ part, name, amount, money, note }) => [part, name ?? '', String(amount), money, note]),
  );

/** Reads a table of prices by its headings. An empty price takes the part off the list. Trouble: `stock-table-invalid`, with every fault by row and column. */
export const readPriceTable = (
  text: string,
  file: string,
): Outcome<readonly { readonly part: PartId; readonly price: PriceSaid | null }[]> => {
  const faults: { readonly place: string; readonly sentence: string }[] = [];
  const say = (row: number, column: Column | null, found: string, expected: string): void => {
    faults.push({
      place: `${file}, row ${row}${column === null ? '' : `, column ${column}`}`,
      sentence: `Row ${row}${column === null ? '' : `, “${column}”`}: found ${found}, expected ${expected}.`,
    });
  };
  const refused = () => {
    const [first] = faults;
    const all = faults.slice(0, 200).map(({ place, sentence }) => trouble('stock-table-invalid', place, sentence));
    return failed(trouble('stock-table-invalid', file, `${file} was not taken in: ${first?.sentence}`, all));
  };
  if (text.length > limits.tableLetters || text.includes('\uFFFD'))
    say(
      1,
      null,
      text.includes('\uFFFD') ? 'letters that are not UTF-8' : `${text.length} characters`,
      text.includes('\uFFFD') ? 'a table saved as CSV in UTF-8' : `${limits.tableLetters} at most`,
    );
  if (faults.length > 0) return refused();
  const first = text.split(/\r?\n/, 1)[0] ?? '';
  const parsed = Papa.parse<string[]>(text, { delimiter: [';', '\t'].find((sign) => first.includes(sign)) ?? ',' });
  for (const error of parsed.errors) say((error.row ?? 0) + 1, null, `a quoting fault (${error.message})`, 'cells quoted as RFC 4180 says');
  const [header = [], ...body] = parsed.data;
  const heads = header.map((cell) => cell.trim().toLowerCase());
  if (!heads.includes('part') || !heads.includes('price')) say(1, null, 'no such headings', 'at least “part” and “price”');
  if (faults.length > 0) return refused();
  const named = new Map<string, number>();
  const prices = body.flatMap((cells, index) => {
    const row = index + 2;
    if (cells.every((cell) => cell.trim() === '')) return [];
    const of = (column: Column): string => unguarded((cells[heads.indexOf(column)] ?? '').trim());
    const [part, price, money] = [of('part'), of('price'), of('money').toUpperCase()];
    const amount = price === '' ? null : readAmount(price);
    if (part === '' || part.length > 200) say(row, 'part', part === '' ? 'nothing' : `${part.length} characters`, 'the id of a part');
    if (named.has(part)) say(row, 'part', `the part of row ${named.get(part)} again`, 'each part once');
    named.set(part, row);
    if (price !== '' && amount === null)
      say(row, 'price', `“${price.slice(0, 60)}”`, 'an amount above 0, or nothing to take it off the list');
    if (price !== '' && !/^[A-Z]{3}$/.test(money))
      say(row, 'money', money === '' ? 'nothing' : `“${money.slice(0, 60)}”`, 'three letters, as ISO 4217 has them');
    if (of('note').length > 300) say(row, 'note', `${of('note').length} characters`, '300 at most');
    return [{ part: part as PartId, price: amount === null ? null : { amount, money, note: of('note') } }];
  });
  return faults.length > 0 ? refused() : done(prices);
};
