import { z } from 'zod';
import { everyList } from '../atlas/lists.ts';
import { fileOf } from '../atlas/pack.ts';
import { headSchema } from '../atlas/schemas.ts';
import { parcelSchema } from '../sheets/parcel-schema.ts';
import { sheetSchema } from '../sheets/schema.ts';
import { signatureSchema } from '../signing/signature.ts';

/**
 * The JSON Schema (draft 2020-12) of every JSON file of a pack, and of the file that says what case it is in the one that holds a whole case, by the name it has in db/packs/schemas. They say the shape;
 * what a schema cannot say (references, kinds that agree, figures in order) stands in FORMAT.md.
 */
export const publishedSchemas = (): ReadonlyMap<string, string> =>
  new Map(
    [
      ['pack.json', headSchema] as const,
      ...everyList.map(({ name, schema }) => [fileOf(name), z.array(schema)] as const),
      ['sheet.json', sheetSchema] as const,
      ['signature.json', signatureSchema] as const,
      ['case.json', parcelSchema] as const,
    ].map(([file, schema]) => {
      const name = file.replace(/\.json$/, '.schema.json');
      const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' });
      const title = schema === parcelSchema ? `kinplate case, version 1: ${file}` : `kinplate atlas pack, version 1: ${file}`;
      return [name, `${JSON.stringify({ $schema, title, ...rest }, null, 2)}\n`];
    }),
  );
