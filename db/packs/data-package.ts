import { createHash } from 'node:crypto';
import { type CsvFile, csvColumns, type Pack } from '../atlas/pack.ts';
import { hashOfPack } from './canonical.ts';

/**
 * The file that describes the tables of a pack to other programs, by the Data Package and Table Schema standard (datapackage.org, 2.0; it says what a program that knows only version 1 asks for too).
 * It is no part of the pack: export writes it anew, nothing is loaded of it, and neither the pack's hash nor a signature knows it.
 */
export const dataPackageFile = 'datapackage.json';

/**
 * Its text.
 * @param texts the canonical text of the pack
 */
export const dataPackageText = (pack: Pack, texts: ReadonlyMap<string, string>): string => {
  const { id, title, edition, note, licence, by } = pack.head;
  const described = {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    profile: 'tabular-data-package',
    // Version 1 takes small letters, digits and these signs.
    name: id.toLowerCase().replace(/[^-a-z0-9._]/g, '-'),
    title,
    description: note,
    version: edition,
    hash: `sha256:${hashOfPack(texts)}`,
    ...(licence === undefined ? {} : { licenses: [licenceOf(licence)] }),
    ...(by === undefined ? {} : { contributors: [{ title: by }] }),
    ...(pack.sources.length === 0 ? {} : { sources: pack.sources.map((source) => ({ title: source.title })) }),
    resources: (Object.keys(csvColumns) as CsvFile[]).map((file) => resource(file, texts.get(file) ?? '', tables[file](pack))),
  };
  return `${JSON.stringify(described, null, 2)}\n`;
};

/** By name where it may be one; words stand in the pack's head. */
const licenceOf = (licence: string) => (/^[-a-zA-Z0-9._]+$/.test(licence) ? { name: licence } : { path: 'pack.json', title: licence });

interface Field {
  readonly name: string;
  readonly type: 'string' | 'number';
  readonly description?: string;
  readonly constraints?: { readonly required?: true; readonly unique?: true; readonly enum?: readonly string[] };
}

interface Table {
  readonly title: string;
  readonly fields: readonly Field[];
  readonly primaryKey: readonly string[];
  /** Columns that hold ids of parts, where all of them are of this pack: what is of another stands in another file. */
  readonly partColumns: readonly string[];
}

const resource = (file: CsvFile, text: string, { title, fields, primaryKey, partColumns }: Table) => {
  const name = file.slice(0, -'.csv'.length);
  return {
    name,
    type: 'table',
    profile: 'tabular-data-resource',
    path: file,
    title,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    bytes: Buffer.byteLength(text),
    hash: `sha256:${createHash('sha256').update(text).digest('hex')}`,
    dialect: { delimiter: ',', lineTerminator: '\n', quoteChar: '"', doubleQuote: true, header: true },
    schema: {
      fields,
      missingValues: [''],
      primaryKey,
      ...(partColumns.length === 0
        ? {}
        : {
            foreignKeys: partColumns.map((column) => ({
              fields: [column],
              // The empty name is the table itself.
              reference: { resource: name === 'parts' ? '' : 'parts', fields: ['id'] },
            })),
          }),
    },
  };
};

const required = { required: true } as const;
const text = (name: string, description?: string): Field => ({
  name,
  type: 'string',
  ...(description === undefined ? {} : { description }),
});
const must = (name: string, description?: string): Field => ({ ...text(name, description), constraints: required });

const tables: {
  readonly [F in CsvFile]: (pack: Pack) => Table & { readonly fields: { readonly length: (typeof csvColumns)[F]['length'] } };
} = {
  'parts.csv': ({ parts }) => {
    const own = new Set<string>(parts.map(({ id }) => id));
    const within = (field: 'patternOf' | 'supersedes') => parts.every((part) => part[field] === undefined || own.has(part[field]));
    return {
      title: 'Parts',
      fields: [
        { ...text('id'), constraints: { required: true, unique: true } },
        must('slot', 'The place it sits, an id of slots.json'),
        must('name'),
        text('maker', 'An id of makers.json; empty: it bears no maker’s name'),
        text('numbers', 'All numbers it was ever sold under, with ; between them'),
        text('pattern_of', 'The part it is made to the pattern of'),
        text('supersedes', 'The part it took the place of'),
        must('source', 'An id of sources.json'),
      ],
      primaryKey: ['id'],
      partColumns: [...(within('patternOf') ? ['pattern_of'] : []), ...(within('supersedes') ? ['supersedes'] : [])],
    };
  },
  'facts.csv': () => ({
    title: 'What is known of each feature of each part',
    fields: [
      must('part'),
      must('feature', 'An id of features.json, which says the unit of a measure'),
      must('value', '? where it is not known; else by the kind of the feature, as the format of packs says'),
      { name: 'lower', type: 'number', description: 'Lower deviation of a measure' },
      { name: 'upper', type: 'number', description: 'Upper deviation of a measure' },
      text('code', 'An ISO 286 code in place of the deviations'),
      text('source', 'An id of sources.json; empty: the part’s own'),
    ],
    primaryKey: ['part', 'feature'],
    partColumns: ['part'],
  }),
  'allowed.csv': ({ parts, allowed }) => {
    const own = new Set<string>(parts.map(({ id }) => id));
    return {
      title: 'Which part may sit in which slot of which model',
      fields: [
        must('model', 'An id of models.json, of this pack or another'),
        must('slot', 'An id of slots.json'),
        must('part'),
        { ...text('role'), constraints: { required: true, enum: ['names', 'option', 'service'] } },
      ],
      primaryKey: ['model', 'part'],
      partColumns: allowed.every(({ part }) => own.has(part)) ? ['part'] : [],
    };
  },
};
