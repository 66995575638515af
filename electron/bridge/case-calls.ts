import { z } from 'zod';
import type { CaseFile, CasePhoto, CaseSummary, HereBefore, PhotoAbout, PhotoId, PhotoType, ShopWord } from '../../db/answers.ts';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { CaseChanges, ObservationId, SheetId, SlotId } from '../../reasoner/index.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, id, longCall, madeAgainst, version } from './call.ts';

/** Half a surrogate pair could not be stored as it stands. */
const text = (max: number) => z.string().max(max).refine(isWellFormed, { error: 'text without half a surrogate pair' });
const day = z.iso.date();
const instant = z.iso.datetime();
const photo = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .transform((of) => of as PhotoId);
const about = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('slot'), slot: id<SlotId>() }),
    z.strictObject({ kind: z.literal('observation'), observation: id<ObservationId>() }),
  ])
  .nullable() satisfies z.ZodType<PhotoAbout | null>;

/**
 * Bytes cross as base64 in JSON, the same way over both transports: the longest photograph (10 MiB) is 14 million characters, which the
 * loopback host's limit of 16 MiB for a call leaves room for. What is longer never gets as far as being decoded.
 */
const base64 = (max: number) =>
  z
    .string()
    .min(1)
    .max(max)
    .regex(/^[A-Za-z0-9+/]*={0,2}$/);
const photoText = base64(14_200_000);
const thumbnailText = base64(300_000);

const said = (max: number) => text(max).refine((words) => words.trim() !== '', { error: 'some words' });
const shopWord = z.strictObject({
  by: z.enum(['shop', 'maker']),
  person: said(200),
  day,
  decision: said(1000),
  ground: said(1000),
}) satisfies z.ZodType<ShopWord>;
const filter = z.strictObject({
  text: z.string().max(200).exactOptional(),
  from: day.exactOptional(),
  to: day.exactOptional(),
  status: z.enum(['stands', 'open', 'ruled out', 'none']).exactOptional(),
  lookedBy: z.string().max(200).exactOptional(),
});

export const caseCalls = {
  'cases.list': call(filter).returns<readonly CaseSummary[]>(),
  /** A case as it stands, or as it stood at an instant: what was entered, said and shown up to then. */
  'cases.open': call(z.strictObject({ sheet: id<SheetId>(), asOf: instant.nullable().default(null) })).returns<CaseFile>(),
  /** `who` is who wrote it. */
  'cases.describe': call(
    z.strictObject({
      sheet: id<SheetId>(),
      customer: text(300),
      lookedBy: text(200),
      notes: text(20_000),
      who: text(200).default(''),
      madeAgainst: version,
    }),
  ).returns<CaseFile>(),
  /** Writes down what the shop or the maker decided, beside the verdict; null takes back what holds. `madeAgainst`: the version of the last saying that was seen. */
  'cases.say': call(
    z.strictObject({
      sheet: id<SheetId>(),
      word: shopWord.nullable(),
      who: text(200).default(''),
      madeAgainst,
    }),
  ).returns<CaseFile>(),
  /** What the shop or the maker decided of the unit of a sheet, where that holds; null also for a sheet that was never saved. */
  'cases.word': call(z.strictObject({ sheet: id<SheetId>() })).returns<ShopWord | null>(),
  /** Other cases that have a number stamped on the unit of this sheet, saved or not: it, or its plate, was here before. */
  'cases.before': call(z.strictObject({ sheet: sheetSchema })).returns<HereBefore>(),
  /** What became of the case since one of its entries was kept (by its place in the history, from 0), and why. */
  'cases.changes': longCall(z.strictObject({ sheet: id<SheetId>(), entry: z.number().int().min(0).max(1_000_000) })).returns<CaseChanges>(),
  /** The cases that pass the filter, as CSV (RFC 4180). */
  'cases.csv': call(filter).returns<string>(),
  /** Stores a photograph, freed of its position; gives all of the case's. The thumbnail is drawn by the window. */
  'photos.add': call(
    z.strictObject({
      sheet: id<SheetId>(),
      name: z.string().min(1).max(300),
      data: photoText,
      thumbnail: thumbnailText,
      caption: text(500),
      about,
    }),
  ).returns<readonly CasePhoto[]>(),
  'photos.describe': call(z.strictObject({ sheet: id<SheetId>(), photo, caption: text(500), about, madeAgainst: version })).returns<
    readonly CasePhoto[]
  >(),
  'photos.remove': call(z.strictObject({ sheet: id<SheetId>(), photo, madeAgainst: version })).returns<readonly CasePhoto[]>(),
  /** The stored bytes, or the small picture's, as base64. */
  'photos.read': call(z.strictObject({ photo, which: z.enum(['whole', 'thumbnail']) })).returns<{
    readonly type: PhotoType;
    readonly data: string;
  }>(),
} as const;
