import { z } from 'zod';
import type { CaseOfPart, Edit, KeptSample, SampleId, SamplesKept } from '../../db/answers.ts';
import type {
  Fact,
  FactOfSamples,
  FeatureId,
  FeatureSamples,
  MakerId,
  PartFromEntries,
  PartId,
  SheetId,
  SlotId,
} from '../../reasoner/index.ts';
import { call, id, version } from './call.ts';
import { plainLine, whoWrites } from './settings-calls.ts';

/** What was measured here of a part. */
export interface SamplesOfPart {
  /** Those that were taken out among them, in the order they were kept. */
  readonly samples: readonly KeptSample[];
  /**
   * Of those that stand, feature by feature, with what they would make of it as the shop's word. `pack`: what the pack says of it, where the shop says otherwise; else null.
   */
  readonly features: readonly (FeatureSamples & { readonly word: FactOfSamples; readonly pack: Fact | null })[];
  readonly cases: readonly CaseOfPart[];
}

/** Edits that nobody has made yet, and where they come from, in words. */
export interface SampleEdits {
  readonly edits: readonly Edit[];
  readonly source: string;
}

const part = id<PartId>();
const slotOfCase = { sheet: id<SheetId>(), version, slot: id<SlotId>() } as const;
const named = z.strictObject({
  name: plainLine(300).refine((name) => name !== '', { error: 'what the part is called' }),
  maker: id<MakerId>().nullable(),
  numbers: z
    .array(plainLine(200).refine((number) => number !== '', { error: 'a part number' }))
    .max(100)
    .refine((numbers) => new Set(numbers).size === numbers.length, { error: 'each number once' }),
});

/** From the counter into the atlas: what was seen and measured of its parts, and parts it does not have. Nothing here alters the atlas; edits are made by `changes.make`. */
export const sampleCalls = {
  'samples.of': call(z.strictObject({ part })).returns<SamplesOfPart>(),
  /** What was seen and measured of a slot of a saved case, in the version that was read, becomes samples of a part. */
  'samples.keep': call(z.strictObject({ ...slotOfCase, part, who: whoWrites })).returns<SamplesKept>(),
  'samples.takeOut': call(z.strictObject({ sample: id<SampleId>(), who: whoWrites })).returns<null>(),
  /** The edits with which what was measured of a feature would be the shop's word for it. */
  'samples.word': call(z.strictObject({ part, feature: id<FeatureId>() })).returns<SampleEdits>(),
  /** A part as it was found in a slot of a saved case, and the edits that put it into the atlas. */
  'samples.newPart': call(z.strictObject({ ...slotOfCase, named })).returns<SampleEdits & PartFromEntries>(),
} as const;
