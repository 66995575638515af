import { z } from 'zod';
import { distance } from '../../reasoner/plain/distance.ts';
import { tight } from '../plain/fold.ts';
import type { Cell } from './cells.ts';
import { headingOf } from './match-columns.ts';

/** What a column of a table of listings is taken for. `words` are read behind their heading, as `carried` is not. */
export const listingUses = ['title', 'description', 'words', 'price', 'link', 'carried'] as const;
export type ListingUse = (typeof listingUses)[number];

/** How a table of listings is read. */
export const listingMatchingSchema = z.strictObject({
  sheet: z.string().max(300).nullable(),
  /** The row of the headings, as a spreadsheet counts; 0 where there are none. */
  headings: z.int().min(0).max(20_000),
  columns: z.array(z.enum(listingUses)).max(300),
});
export type ListingMatching = z.infer<typeof listingMatchingSchema>;

/** What a column was taken for, how surely, and why, in a sentence. */
export interface ListingMatch {
  readonly use: ListingUse;
  readonly sure: 'certain' | 'likely' | 'none';
  readonly why: string;
}

/** Headings people give such columns, in some languages of the trade: common practice, no source. */
const headings: Readonly<Record<Exclude<ListingUse, 'carried'>, readonly string[]>> = {
  title: [
    'title',
    'item title',
    'listing',
    'listing title',
    'offer',
    'headline',
    'subject',
    'item',
    'item name',
    'name',
    'article',
    'product',
    'unit',
    'titel',
    'bezeichnung',
    'titre',
    'titolo',
    'titulo',
  ],
  description: [
    'description',
    'item description',
    'details',
    'detail',
    'text',
    'body',
    'what it says',
    'seller says',
    'seller’s words',
    'content',
    'beschreibung',
    'descrizione',
    'descripcion',
    'remarks',
    'remark',
    'notes',
    'note',
    'comment',
    'comments',
  ],
  words: [
    'maker',
    'make',
    'brand',
    'manufacturer',
    'made by',
    'model',
    'model name',
    'type',
    'part number',
    'part no',
    'part nr',
    'number',
    'number on it',
    'serial',
    'serial number',
    'hersteller',
    'marke',
    'modell',
    'marque',
    'modele',
  ],
  price: [
    'price',
    'asking price',
    'asked',
    'asking',
    'cost',
    'amount',
    'sum',
    'offer price',
    'price asked',
    'unit price',
    'preis',
    'prix',
    'prezzo',
    'precio',
    'eur',
    'gbp',
    'usd',
    'euro',
    'pounds',
  ],
  link: ['link', 'url', 'address', 'web', 'web address', 'page', 'where', 'href', 'lien', 'collegamento', 'enlace', 'adresse'],
};
const useBy: ReadonlyMap<string, ListingUse> = new Map(
  Object.entries(headings).flatMap(([use, all]) => all.map((one) => [tight(one), use as ListingUse] as const)),
);

/** Of these a table has one at most; what is said again is read, or carried along. */
const once: Readonly<Partial<Record<ListingUse, ListingUse>>> = { title: 'words', price: 'carried', link: 'carried' };

/** So many rows are looked at for what a column holds, and so many first rows for headings. */
const sampled = 50;
const mostAbove = 15;

/** The row that most of all reads as headings, among the first: as a spreadsheet counts; 0 where none does. */
export const listingHeadingRow = (rows: readonly (readonly Cell[])[]): number => {
  let best = { row: 0, known: 0 };
  rows.slice(0, mostAbove).forEach((cells, at) => {
    const known = cells.filter(({ text }) => calledBy(text) !== null).length;
    if (known > best.known) best = { row: at + 1, known };
  });
  if (best.row > 0) return best.row;
  // Nothing is known of them: a first row of several short texts without a figure is taken for headings.
  const [first] = rows;
  return first !== undefined && first.length > 1 && first.every(({ text }) => text.length <= 40 && !/[\d/]/.test(text)) ? 1 : 0;
};

/** The columns under the headings of a row (0: none), by what they are called, else by what stands in them. Where no column is known to hold words, the one that holds most of them does. */
export const matchListings = (rows: readonly (readonly Cell[])[], headingRow: number): readonly ListingMatch[] => {
  const heads = headingRow === 0 ? [] : (rows[headingRow - 1] ?? []);
  const below = rows.slice(headingRow);
  const width = rows.reduce((most, cells) => Math.max(most, cells.length), 0);
  const samples = Array.from({ length: width }, (_, at) => textsIn(below, at));
  const found = samples.map(
    (texts, at): ListingMatch => byHeading(heads[at]?.text ?? '') ?? bySample(texts, heads[at]?.text ?? '', headingRow === 0),
  );
  // Where no heading says which column is the description, it is the one that holds the most words, if it holds sentences at all, or if nothing else does.
  if (!found.some(({ use }) => use === 'description')) {
    const titled = found.some(({ use }) => use === 'title');
    const lengths = samples.map((texts, at) => {
      const free = found[at]?.use === 'carried' || (!titled && found[at]?.use === 'words');
      return free && (!titled || saysSentences(texts)) ? lengthOf(texts) : 0;
    });
    const longest = Math.max(0, ...lengths);
    if (longest > 0) found[lengths.indexOf(longest)] = { use: 'description', sure: 'likely', why: 'It holds the most words.' };
  }
  const seen = new Set<ListingUse>();
  return found.map((match): ListingMatch => {
    const instead = once[match.use];
    if (instead === undefined || !seen.has(match.use)) {
      seen.add(match.use);
      return match;
    }
    return { use: instead, sure: 'likely', why: `Another column is the ${match.use} already.` };
  });
};

const textsIn = (rows: readonly (readonly Cell[])[], at: number): string[] =>
  rows.slice(0, sampled).flatMap((cells) => (cells[at] === undefined || cells[at].text === '' ? [] : [cells[at].text]));

const lengthOf = (texts: readonly string[]): number => texts.reduce((sum, text) => sum + text.length, 0);

/** Whether most of them are of three words or more. */
const saysSentences = (texts: readonly string[]): boolean =>
  texts.filter((text) => text.split(/\s+/).length >= 3).length > texts.length / 2;

/** By the whole heading, what stands in brackets behind it aside, or all but spelled so. */
const calledBy = (heading: string): { readonly use: ListingUse; readonly misspelled: boolean } | null => {
  const bare = headingOf(heading).bare.replace(/\s*[([{][^()[\]{}]*[)\]}]\s*$/, '');
  const word = tight(bare);
  const use = useBy.get(word);
  if (use !== undefined) return { use, misspelled: false };
  if (word.length < 5 || word.length > 20) return null;
  for (const [known, near] of useBy) if (known.length >= 5 && distance(known, word) === 1) return { use: near, misspelled: true };
  return null;
};

const byHeading = (heading: string): ListingMatch | null => {
  const called = calledBy(heading);
  if (called === null) return null;
  return called.misspelled
    ? { use: called.use, sure: 'likely', why: `“${heading}” is written almost like a heading for that.` }
    : { use: called.use, sure: 'certain', why: `“${heading}” says so.` };
};

const link = /^(?:https?:\/\/|www\.)\S+$/i;
const money = /^(?:[^\d\s]{1,4}\s?)?\d{1,3}(?:[ .,’']?\d{3})*(?:[.,]\d{1,2})?(?:[.,]-)?(?:\s?[^\d\s]{1,4})?$/u;

const bySample = (texts: readonly string[], heading: string, bare: boolean): ListingMatch => {
  const most = (is: RegExp): boolean => texts.length > 0 && texts.filter((text) => is.test(text)).length > texts.length / 2;
  if (most(link)) return { use: 'link', sure: 'likely', why: 'Most of its cells are addresses.' };
  if (bare && most(money)) return { use: 'price', sure: 'likely', why: 'Most of its cells are figures.' };
  // Without headings nobody said what a text is: all of it is read.
  if (bare && texts.length > 0) return { use: 'title', sure: 'likely', why: 'It holds words, and no heading says more.' };
  return { use: 'carried', sure: 'none', why: heading === '' ? 'It has no heading.' : `“${heading}” is no heading for any of these.` };
};
