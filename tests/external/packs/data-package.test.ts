import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv';
import Ajv2020 from 'ajv/dist/2020.js';
import Papa from 'papaparse';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Pack, readPack } from '../../../db/index.ts';
import { canonicalText, hashOfPack } from '../../../db/packs/canonical.ts';
import { dataPackageText } from '../../../db/packs/data-package.ts';
import { publishedSchemas } from '../../../db/packs/published-schemas.ts';
import { makeOwnKey, openOwnKey } from '../../../db/signing/own-key.ts';
import { signatureText, signPack } from '../../../db/signing/signature.ts';
import { expandCode, expandH7, freshFolder, smallPack, valueIn, vocabularyPack } from '../../unit/db/kit.ts';

let small: Pack;
let vocabulary: Pack;
beforeAll(async () => {
  small = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
  vocabulary = valueIn(await readPack(vocabularyPack, { expandCode }));
});

/** `{ type: 'string' }` and the like, for what a profile says no more of. */
const [string, strings] = [{ type: 'string' }, { type: 'array', items: { type: 'string' } }] as const;
const path = { type: 'string', pattern: '^((?=[^./~])(?!file:)((?!\\/\\.\\.\\/)(?!\\\\)(?!:\\/\\/).)*|(http|ftp)s?:\\/\\/.*)$' };
const field = (type: string, constraints: object, more: object = {}) => ({
  type: 'object',
  required: type === 'string' ? ['name'] : ['name', 'type'],
  properties: {
    ...{ name: string, title: string, description: string, type: { enum: [type] } },
    ...more,
    constraints: { type: 'object', properties: { required: { type: 'boolean' }, unique: { type: 'boolean' }, ...constraints } },
  },
});
/**
 * The profile of version 2.0 (datapackage.org/profiles/2.0/datapackage.json), written out in short from its text as the standard's repository has it (profiles/target/2.0 and public/profiles/2.0): what it
 * asks of all that stands in ours. Fields of other types, and what is only described there, are left out.
 */
const version2 = {
  type: 'object',
  required: ['resources'],
  properties: {
    ...{ $schema: string, name: string, id: string, title: string, description: string, version: string },
    contributors: {
      type: 'array',
      minItems: 1,
      items: { minProperties: 1, properties: { title: string, path, roles: { minItems: 1, ...strings } } },
    },
    licenses: {
      type: 'array',
      minItems: 1,
      items: {
        type: 'object',
        anyOf: [{ required: ['name'] }, { required: ['path'] }],
        properties: { name: { type: 'string', pattern: '^([-a-zA-Z0-9._])+$' }, path, title: string },
      },
    },
    sources: { type: 'array', items: { type: 'object', minProperties: 1, properties: { title: string, path, version: string } } },
    resources: {
      type: 'array',
      minItems: 1,
      items: {
        type: 'object',
        oneOf: [{ required: ['name', 'data'] }, { required: ['name', 'path'] }],
        properties: {
          ...{ name: string, title: string, description: string, format: string, encoding: string },
          path: { oneOf: [path, { type: 'array', minItems: 1, items: path }] },
          type: { type: 'string', enum: ['table'] },
          mediatype: { type: 'string', pattern: '^(.+)/(.+)$' },
          bytes: { type: 'integer' },
          hash: { type: 'string', pattern: '^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32}|)$' },
          dialect: {
            type: 'object',
            properties: {
              ...{ header: { type: 'boolean' }, doubleQuote: { type: 'boolean' }, skipInitialSpace: { type: 'boolean' } },
              ...{ delimiter: string, lineTerminator: string, quoteChar: string, escapeChar: string, nullSequence: string },
            },
          },
          schema: {
            type: ['string', 'object'],
            required: ['fields'],
            properties: {
              fields: {
                type: 'array',
                minItems: 1,
                items: {
                  type: 'object',
                  oneOf: [
                    field('string', {
                      pattern: string,
                      enum: { minItems: 1, uniqueItems: true, ...strings },
                      minLength: { type: 'integer' },
                    }),
                    field(
                      'number',
                      { minimum: { type: ['string', 'number'] }, maximum: { type: ['string', 'number'] } },
                      { decimalChar: string },
                    ),
                  ],
                },
              },
              primaryKey: { oneOf: [{ minItems: 1, uniqueItems: true, ...strings }, string] },
              foreignKeys: {
                type: 'array',
                minItems: 1,
                items: {
                  type: 'object',
                  required: ['fields', 'reference'],
                  oneOf: [
                    {
                      properties: {
                        fields: strings,
                        reference: {
                          required: ['fields'],
                          properties: { resource: string, fields: { minItems: 1, uniqueItems: true, ...strings } },
                        },
                      },
                    },
                    {
                      properties: { fields: string, reference: { required: ['fields'], properties: { resource: string, fields: string } } },
                    },
                  ],
                },
              },
              missingValues: {
                anyOf: [
                  strings,
                  { type: 'array', items: { type: 'object', required: ['value'], properties: { value: string, label: string } } },
                ],
              },
            },
          },
        },
      },
    },
  },
};

const version1 = JSON.parse(readFileSync(join(import.meta.dirname, '../data/tabular-data-package.json'), 'utf8')) as { $schema?: string };
const validators = [
  ['version 1, as published', (): object => ({ ...version1, $schema: undefined }), false],
  ['version 2.0, written out', (): object => version2, true],
] as const;

const described = (pack: Pack) => JSON.parse(dataPackageText(pack, canonicalText(pack))) as Described;
interface Described {
  readonly hash: string;
  readonly licenses?: readonly object[];
  readonly contributors?: readonly object[];
  readonly sources: readonly object[];
  readonly resources: readonly {
    readonly name: string;
    readonly path: string;
    readonly bytes: number;
    readonly hash: string;
    readonly schema: {
      readonly fields: readonly {
        readonly name: string;
        readonly type: string;
        readonly constraints?: { readonly required?: boolean; readonly unique?: boolean; readonly enum?: readonly string[] };
      }[];
      readonly primaryKey: readonly string[];
      readonly foreignKeys?: readonly {
        readonly fields: readonly [string];
        readonly reference: { readonly resource: string; readonly fields: readonly [string] };
      }[];
    };
  }[];
}

const headed = (more: object): Pack => ({ ...small, head: { ...small.head, ...more } });

describe.each(validators)('[P15] the Data Package profile of %s', (_, schema, second) => {
  const validate = () => new Ajv({ strict: false, validateFormats: false, allErrors: true }).compile(JSON.parse(JSON.stringify(schema())));

  test('[P15] takes what export writes of a pack: with words for a licence, an identifier, or none; one without parts; one that speaks of another’s', () => {
    const check = validate();
    const another = { ...small, parts: small.parts.slice(1) };
    for (const pack of [
      small,
      headed({ licence: 'CC-BY-4.0', by: 'Saltmarsh' }),
      headed({ id: 'Own:Pack+ü', licence: 'ask us first' }),
      vocabulary,
      another,
    ]) {
      check(described(pack));
      expect(check.errors ?? []).toEqual([]);
    }
  });

  test('[P15] and refuses it where a part of it is spoilt', () => {
    const check = validate();
    const sound = described(headed({ licence: 'CC-BY-4.0' }));
    const [parts, facts] = sound.resources;
    const spoilt: readonly object[] = [
      { ...sound, resources: [] },
      { ...sound, licenses: [{ name: 'two words' }] },
      { ...sound, resources: [{ ...parts, path: 7 }] },
      ...(second
        ? [
            { ...sound, licenses: [{ title: 'x' }] },
            { ...sound, resources: [{ ...parts, path: '../parts.csv' }] },
          ]
        : []),
      { ...sound, resources: [{ ...parts, name: undefined }] },
      { ...sound, resources: [{ ...parts, schema: { ...parts?.schema, fields: [{ type: 'string' }] } }] },
      { ...sound, resources: [{ ...facts, schema: { ...facts?.schema, foreignKeys: [{ fields: ['part'] }] } }] },
      { ...sound, resources: [{ ...facts, schema: { ...facts?.schema, primaryKey: [1] } }] },
    ];
    for (const each of spoilt) expect([check(JSON.parse(JSON.stringify(each))), each]).toEqual([false, each]);
  });
});

test('[P15] what it says of the tables is so: columns, sizes, hashes, types, what must be there, keys and what they lead to', () => {
  for (const pack of [small, { ...small, parts: small.parts.slice(1) }]) {
    const texts = canonicalText(pack);
    const { hash, resources } = described(pack);
    expect(hash).toBe(`sha256:${hashOfPack(texts)}`);
    expect(resources.map(({ path: at }) => at)).toEqual(['parts.csv', 'facts.csv', 'allowed.csv']);
    const rowsOf = (file: string) => Papa.parse<Record<string, string>>((texts.get(file) ?? '').trimEnd(), { header: true }).data;
    const keys = new Set<string>();
    for (const { name, path: file, bytes, hash: of, schema } of resources) {
      const text = texts.get(file) ?? '';
      const rows = rowsOf(file);
      expect(rows.length).toBeGreaterThan(10);
      expect([bytes, of]).toEqual([Buffer.byteLength(text), `sha256:${createHash('sha256').update(text).digest('hex')}`]);
      expect(schema.fields.map((each) => each.name)).toEqual(text.slice(0, text.indexOf('\n')).split(','));
      for (const { name: column, type, constraints: { required = false, unique = false, enum: words } = {} } of schema.fields) {
        const cells = rows.map((row) => row[column] ?? '');
        const filled = cells.filter((cell) => cell !== '');
        if (type === 'number') expect(filled.every((cell) => /^-?\d+(\.\d+)?(e-?\d+)?$/.test(cell))).toBe(true);
        if (required) expect([column, filled.length]).toEqual([column, cells.length]);
        if (unique) expect(new Set(cells).size).toBe(cells.length);
        if (words !== undefined) expect(words).toEqual(expect.arrayContaining(cells));
      }
      expect(new Set(rows.map((row) => JSON.stringify(schema.primaryKey.map((column) => row[column])))).size).toBe(rows.length);
      for (const {
        fields: [column],
        reference,
      } of schema.foreignKeys ?? []) {
        keys.add(`${name}.${column}`);
        const leadTo = new Set(
          rowsOf(`${reference.resource === '' ? name : reference.resource}.csv`).map((row) => row[reference.fields[0]]),
        );
        for (const row of rows) if (row[column] !== '') expect([column, leadTo.has(row[column])]).toEqual([column, true]);
      }
    }
    // The first part is listed in a model: without it that column leads out of the pack, and is no key.
    const whole = pack === small;
    expect([...keys].sort()).toEqual([...(whole ? ['allowed.part'] : []), 'facts.part', 'parts.pattern_of', 'parts.supersedes']);
  }
});

test('[P4] every published JSON Schema is one by an independent reading of draft 2020-12, and takes the files of the packs and a signature', async () => {
  const ajv = new Ajv2020({ strict: false, validateFormats: false });
  const checks = new Map([...publishedSchemas()].map(([name, text]) => [name, ajv.compile(JSON.parse(text))]));
  const folder = freshFolder();
  await makeOwnKey(folder, 'Saltmarsh', null);
  const { key, name } = await openOwnKey(folder, null);
  let many = 0;
  for (const pack of [small, vocabulary]) {
    const signature = signatureText(signPack(pack.head, canonicalText(pack), { key, name, at: '2026-03-04T12:00:00.000Z' }));
    for (const [file, text] of [...canonicalText(pack), ['signature.json', signature] as const]) {
      if (!file.endsWith('.json')) continue;
      const check = checks.get(file.startsWith('sheets/') ? 'sheet.schema.json' : file.replace(/\.json$/, '.schema.json'));
      check?.(JSON.parse(text));
      expect([file, check?.errors]).toEqual([file, null]);
      expect(check?.([{ nothing: 'of the kind' }])).toBe(false);
      many += 1;
    }
  }
  expect(many).toBeGreaterThan(30);
});
