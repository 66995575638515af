import { z } from 'zod';
import { seenSchema, sheetSchema } from '../../db/sheets/schema.ts';
import type {
  BuildSheet,
  Compared,
  ComparedBuilds,
  Completion,
  CompletionProgress,
  FeatureId,
  JointId,
  MakerId,
  ModelId,
  NameId,
  OperationId,
  PartId,
  PlanAnswer,
  RatesId,
  SlotId,
  SlotOptions,
} from '../../reasoner/index.ts';
import { mostCompared } from '../../reasoner/plain/most-compared.ts';
import { id, longCall, runCall } from './call.ts';

/** Where a search for builds stands. */
export type SearchState =
  | { readonly state: 'running'; readonly progress: CompletionProgress }
  | { readonly state: 'done'; readonly completion: Completion };

const stock = z.array(id<PartId>()).max(100_000).default([]);
const foundWork = z.strictObject({ operation: id<OperationId>(), part: id<PartId>(), joint: id<JointId>() });
const constraints = z.strictObject({
  maker: id<MakerId>().exactOptional(),
  atMost: z.number().int().min(0).max(1000).exactOptional(),
  keep: id<NameId>().exactOptional(),
  require: z
    .array(z.strictObject({ slot: id<SlotId>(), feature: id<FeatureId>(), value: seenSchema }))
    .max(200)
    .readonly()
    .exactOptional(),
  stock: z.array(id<PartId>()).max(100_000).readonly().exactOptional(),
  onlyStock: z.boolean().exactOptional(),
  rates: id<RatesId>().exactOptional(),
  mayLeave: z.enum(['nothing', 'measuring', 'unknowns']).exactOptional(),
});

export const buildCalls = {
  /** A build on paper as it stands in the window: joints, works, cost and name in one answer. `stock`: parts that need not be bought. */
  'build.plan': longCall(z.strictObject({ sheet: sheetSchema, stock })).returns<PlanAnswer>(),
  /** What may go into one slot beside the parts chosen: what drops in, what needs work, and why the rest does not. */
  'build.options': longCall(z.strictObject({ sheet: sheetSchema, slot: id<SlotId>() })).returns<SlotOptions>(),
  /** The sheet that goes to the bench, section by section, to be printed. */
  'build.sheet': longCall(z.strictObject({ sheet: sheetSchema, stock })).returns<BuildSheet>(),
  /** Starts a search for every build that fills the open slots and that no other beats; the token is asked about with `build.progress`. */
  'build.complete': runCall(
    z.strictObject({ sheet: sheetSchema, constraints, limit: z.number().int().min(1).max(1000).default(200) }),
  ).returns<{
    readonly token: string;
  }>(),
  'build.progress': runCall(z.strictObject({ token: id() })).returns<SearchState>(),
  /** Stops a search; what it has found is then its answer. */
  'build.cancel': runCall(z.strictObject({ token: id() })).returns<null>(),
  /** Several builds side by side, differences first. `works`: those a search found for it; `stock`: null where it could not be told. */
  'compare.builds': longCall(
    z.strictObject({
      builds: z
        .array(z.strictObject({ sheet: sheetSchema, works: z.array(foundWork).max(200).readonly().exactOptional() }))
        .min(2)
        .max(mostCompared),
      stock: stock.nullable(),
    }),
  ).returns<ComparedBuilds>(),
  /** Two models side by side, differences first. */
  'compare.models': longCall(z.strictObject({ a: id<ModelId>(), b: id<ModelId>() })).returns<Compared>(),
} as const;
