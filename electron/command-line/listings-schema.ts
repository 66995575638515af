import { z } from 'zod';
import { type Listings, reasonKinds, type SheetId, standings } from '../../reasoner/index.ts';
import { independent, type Same } from './verdict-schema.ts';

const sheetId = z.string().describe('the sheet’s id; null for what could not be read') as unknown as z.ZodType<SheetId>;

/** The shape of what `kinplate listings --format json` prints; `kinplate schema listings` makes JSON Schema of it. */
const row = z
  .strictObject({
    source: z.string().describe('the file, and within a table the row or the unit'),
    sheet: sheetId.nullable(),
    title: z.string(),
    claimed: z.string().nullable(),
    standing: z.enum(standings).describe('plainest failure first'),
    plainness: z
      .strictObject({
        restsOn: z.enum(reasonKinds).describe('what the first reason rests on (K1)'),
        members: z.int().describe('members of the first reason'),
        minutes: z.number().describe('strip-down to see all of it'),
        reasons: independent,
      })
      .nullable()
      .describe('of a claim that is ruled out, or would be were its own words true'),
    sentences: z.array(z.string()).readonly().describe('the first thing to be said; of what cannot be read, its faults'),
    lookFirst: z.string().nullable().describe('where to look first'),
    may: z.string().nullable().describe('what it may be described as, by what was entered'),
    offer: z
      .strictObject({
        price: z.string().nullable(),
        link: z.string().nullable(),
        carried: z.array(z.strictObject({ heading: z.string(), text: z.string() })).readonly(),
      })
      .nullable()
      .describe('of a row of a table of listings: told, as it was written'),
  })
  .meta({ id: 'listingsRow' });

export const listingsSchema = z.strictObject({
  edition: z.string().describe('the state of the atlas judged by'),
  rows: z.array(row).readonly().describe('plainest failure first; every sheet handed in is one'),
  complete: z.boolean().describe('false when it was stopped'),
  cautions: z.array(z.string()).readonly().describe('they stand with every row; pass them on'),
});

/** The JSON Schema (draft 2020-12) of what `kinplate listings --format json` prints. */
export const listingsJsonSchema = () =>
  z.toJSONSchema(listingsSchema.meta({ title: 'Kinplate listings, format 1' }), { target: 'draft-2020-12' });

const held: Same<z.output<typeof listingsSchema>, Listings> = true;
void held;
