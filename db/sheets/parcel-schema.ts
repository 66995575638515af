import { z } from 'zod';
import type { NameId, ObservationId, PartId, SlotId } from '../../reasoner/index.ts';
import { caseNumberPattern } from '../../reasoner/plain/counter-letter.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import type { PhotoAbout, PhotoId, ShopWord } from '../shop/case.ts';
import { sheetSchema } from './schema.ts';

/**
 * `case.json`, in the one file that holds a whole case (P9): everything but its photographs, which lie beside it. What a case is called here (number) is what it
 * was called where it was written; where it is taken in it gets another.
 */
const text = (max: number) => z.string().max(max).refine(isWellFormed, { error: 'text without half a surrogate pair' });
const id = <T extends string>() =>
  z
    .string()
    .min(1)
    .max(200)
    .refine(isWellFormed, { error: 'text without half a surrogate pair' })
    .transform((of) => of as T);
const day = z.iso.date({ error: 'a day, as 2026-03-04' });
const instant = z.iso.datetime({ error: 'a time, as 2026-03-04T12:00:00.000Z' });
const number = z.string().regex(caseNumberPattern, { error: 'a case number, as A-2026-0007' });
/** SHA-256, in hex. */
const hash = z.string().regex(/^[0-9a-f]{64}$/, { error: '64 hexadecimal digits' });
/** What the program said, in its own words. */
const said = text(20_000);

const status = z.enum(['stands', 'open', 'ruled out']);
const keptName = z.strictObject({ id: id<NameId>(), text: said, rung: z.string().min(1).max(100), status });
const verdictSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('verdict'),
    edition: text(2000),
    honest: z.array(keptName),
    open: z.array(keptName),
    claim: z.strictObject({ text: said, name: id<NameId>().nullable(), status }).nullable(),
    names: z.array(keptName),
    slots: z.array(
      z.strictObject({
        slot: id<SlotId>(),
        name: text(1000),
        left: z.int().min(0),
        parts: z.array(z.strictObject({ id: id<PartId>(), name: text(1000) })).nullable(),
        absent: z.boolean(),
        doubtful: z.boolean(),
      }),
    ),
    fit: z.enum(['drops in', 'after work', 'will not fit', 'not known']).nullable(),
    sentences: z.array(said),
    cautions: z.array(said),
    /** The words for the ticket (W1), where they were kept. */
    ticket: z.strictObject({ may: z.array(said), mustNot: z.array(said) }).exactOptional(),
  }),
  z.strictObject({ kind: z.literal('contradiction'), edition: text(2000), sentences: z.array(said) }),
]);

const wordSchema = z.strictObject({
  by: z.enum(['shop', 'maker']),
  person: text(200).min(1),
  day,
  decision: text(1000).min(1),
  ground: text(1000).min(1),
}) satisfies z.ZodType<ShopWord>;

const about = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('slot'), slot: id<SlotId>() }),
    z.strictObject({ kind: z.literal('observation'), observation: id<ObservationId>() }),
  ])
  .nullable() satisfies z.ZodType<PhotoAbout | null>;

export const parcelSchema = z.strictObject({
  kinplate: z.literal('case'),
  version: z.literal(1),
  /** Its number where it was written. */
  number,
  openedOn: day,
  /** The numbers it had before that, elsewhere; the first one first. */
  origins: z.array(z.strictObject({ number, at: instant, who: text(200) })).max(1000),
  /** As it stands. */
  sheet: sheetSchema,
  /** What was written of it; oldest first, and the last holds. */
  details: z.array(z.strictObject({ at: instant, who: text(200), customer: text(300), lookedBy: text(200), notes: text(20_000) })).min(1),
  /** Every state it was saved in, with what was said of it; oldest first. */
  history: z.array(z.strictObject({ at: instant, who: text(200), sheet: sheetSchema, verdict: verdictSchema })),
  /** What the shop or the maker decided beside the verdict (P6); null takes back what was said before. */
  words: z.array(z.strictObject({ at: instant, who: text(200), word: wordSchema.nullable() })),
  /** Where it was left as it was told (P7): which state of its history, from 1, and the version of what would have been said. */
  left: z.array(
    z.strictObject({
      at: instant,
      who: text(200),
      reason: text(1000).min(1),
      entry: z.int().min(1),
      otherwise: hash,
    }),
  ),
  photographs: z
    .array(
      z.strictObject({
        /** Where its bytes are. */
        file: z.string().regex(/^photographs\/\d{1,3}\.(jpg|png|webp)$/, { error: 'a file such as photographs/1.jpg' }),
        thumbnail: z.string().regex(/^thumbnails\/\d{1,3}\.(jpg|png|webp)$/, { error: 'a file such as thumbnails/1.jpg' }),
        /** Of the bytes. */
        sha256: hash.transform((of) => of as PhotoId),
        addedAt: instant,
        caption: text(500),
        about,
      }),
    )
    .max(100),
});

export type Parcel = z.output<typeof parcelSchema>;
