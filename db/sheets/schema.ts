import { z } from 'zod';
import type { FeatureId, MakerId, ObservationId, PartId, Sheet, SheetId, SlotId, Unseen } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';

/** The shape of a sheet at the door. Whether its slots and features exist is asked of the atlas afterwards. */
const id = <T extends string>() =>
  z
    .string()
    .min(1)
    .max(200)
    .refine(isWellFormed, { error: 'text without half a surrogate pair' })
    .transform((text) => text as T);

/** Half a surrogate pair could neither be stored nor written to a file as it stands. */
const text = (max: number) => z.string().max(max).refine(isWellFormed, { error: 'text without half a surrogate pair' });

export const seenSchema = z.discriminatedUnion('kind', [
  z
    .strictObject({ kind: z.literal('count'), from: z.int().min(0), to: z.int().min(0) })
    .refine((count) => count.from <= count.to, { error: 'a count that runs from the smaller number to the larger' }),
  z.strictObject({ kind: z.literal('measure'), value: z.number() }),
  z.strictObject({ kind: z.literal('choice'), option: z.string().min(1) }),
  z.strictObject({ kind: z.literal('presence'), present: z.boolean() }),
  z.strictObject({ kind: z.literal('mark'), text: text(2000).nullable() }),
]);

const sure = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('seen') }),
  z.strictObject({ kind: z.literal('measured'), u: z.number().positive() }),
  z.strictObject({ kind: z.literal('told') }),
]);

const observation = z.strictObject({
  id: id<ObservationId>(),
  slot: id<SlotId>(),
  feature: id<FeatureId>(),
  value: seenSchema,
  sure,
  confirmed: z.literal(true).exactOptional(),
  instrument: text(200).exactOptional(),
  note: text(4000).exactOptional(),
});

/** Held to the reasoner's type: a drift between the two does not compile. */
export const sheetSchema = z.strictObject({
  id: id<SheetId>(),
  title: text(300),
  story: text(20_000),
  kind: z.enum(['found', 'planned']),
  claimed: text(limits.claimLetters).nullable(),
  claimedMaker: id<MakerId>().nullable(),
  serial: text(200).exactOptional(),
  observations: z.array(observation).max(2000).readonly(),
  unseen: z
    .array(
      z.strictObject({
        slot: id<SlotId>(),
        feature: id<FeatureId>(),
        why: z.enum(['could not see', 'may not be opened', 'no instrument'] satisfies readonly Unseen['why'][]),
      }),
    )
    .max(2000)
    .readonly()
    .exactOptional(),
  absent: z.array(id<SlotId>()).readonly(),
  chosen: z.record(id<SlotId>(), id<PartId>()),
}) satisfies z.ZodType<Sheet>;
