import Papa from 'papaparse';
import type { Feature, Sheet } from '../../reasoner/index.ts';
import { everyList } from '../atlas/lists.ts';
import { type Allowance, type CsvFile, type CsvRow, csvColumns, fileOf, type Pack, type PackHead } from '../atlas/pack.ts';
import { headSchema } from '../atlas/schemas.ts';
import { type Version, versionOfTexts } from '../driver/version.ts';
import { sheetSchema } from '../sheets/schema.ts';
import { writeFact } from './facts.ts';

/**
 * The canonical text of a pack: its files by path, in reading order. Reading it gives the same pack back, and every
 * pack has exactly one. FORMAT.md states the order of rows and fields.
 * Rows about things of another pack come last, by id.
 */
export const canonicalText = (pack: Pack): ReadonlyMap<string, string> => {
  const files = new Map<string, string>();
  files.set('pack.json', headText(pack.head));
  for (const { name, optional, schema } of everyList) {
    if (optional && pack[name].length === 0) continue;
    // Parsing puts the fields in the order of the schema.
    files.set(fileOf(name), jsonText(pack[name].map((entry) => schema.parse(entry))));
  }
  files.set('parts.csv', csvText('parts.csv', pack.parts.map(partCells)));
  files.set('facts.csv', csvText('facts.csv', factRows(pack)));
  files.set('allowed.csv', csvText('allowed.csv', inOrder(pack)));
  for (const sheet of [...pack.sheets].sort((a, b) => compare(a.id, b.id))) files.set(`sheets/${sheet.id}.json`, sheetText(sheet));
  return files;
};

/** Its pack.json. */
export const headText = (head: PackHead): string => jsonText(headSchema.parse(head));

/** The version of a pack, over its canonical text; two packs of one version say the same. */
export const hashOfPack = (files: ReadonlyMap<string, string>): Version => versionOfTexts(framed(files));

function* framed(files: Iterable<readonly [path: string, text: string]>): Generator<string> {
  for (const [path, text] of files) {
    yield `${path}\n${Buffer.byteLength(text)}\n`;
    yield text;
  }
}

/** A sheet as the text of a sheet file. */
export const sheetText = (sheet: Sheet): string => jsonText(sheetSchema.parse(sheet));

const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Empty cells are left empty, cells are quoted only where RFC 4180 asks for it, rows end in LF. */
const csvText = <F extends CsvFile>(file: F, rows: readonly CsvRow<F>[]): string => {
  const columns: readonly string[] = csvColumns[file];
  const lines = [columns.join(',')];
  for (const row of rows) lines.push(lineOf(columns.map((column) => (row as Readonly<Record<string, string>>)[column] ?? '')));
  return `${lines.join('\n')}\n`;
};

/** Of cells in which nothing could have to be quoted the line is they themselves. */
const lineOf = (cells: string[]): string => {
  const line = cells.join(',');
  return /["\r\n\uFEFF]/.test(line) || cells.some(mayBeQuoted) ? Papa.unparse([cells], { newline: '\n' }) : line;
};

const mayBeQuoted = (cell: string): boolean => cell.includes(',') || cell.startsWith(' ') || cell.endsWith(' ');

const partCells = (part: Pack['parts'][number]): CsvRow<'parts.csv'> => ({
  id: part.id,
  slot: part.slot,
  name: part.name,
  maker: part.maker ?? '',
  numbers: part.numbers.join(';'),
  pattern_of: part.patternOf ?? '',
  supersedes: part.supersedes ?? '',
  source: part.source,
});

const factRows = (pack: Pack): CsvRow<'facts.csv'>[] => {
  const rank = ranks(pack.features);
  return pack.parts.flatMap((part) =>
    (Object.keys(part.facts) as Feature['id'][])
      .sort((a, b) => rank(a, b))
      .map((feature) => {
        const fact = part.facts[feature];
        if (fact === undefined) throw new Error(`no fact under ${feature} of ${part.id}`);
        return { part: part.id, feature, ...writeFact(fact), source: part.factSources?.[feature] ?? '' };
      }),
  );
};

const inOrder = (pack: Pack): Allowance[] => {
  const model = ranks(pack.models);
  const slot = ranks(pack.slots);
  const part = ranks(pack.parts);
  return [...pack.allowed].sort((a, b) => model(a.model, b.model) || slot(a.slot, b.slot) || part(a.part, b.part));
};

/** Orders ids as the pack has them, then by id. */
const ranks = (own: readonly { readonly id: string }[]): ((a: string, b: string) => number) => {
  const rank = new Map<string, number>();
  for (const { id } of own) rank.set(id, rank.size);
  return (a, b) => (rank.get(a) ?? Number.POSITIVE_INFINITY) - (rank.get(b) ?? Number.POSITIVE_INFINITY) || compare(a, b);
};

/** By code unit, so that the order is the same in every locale. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
