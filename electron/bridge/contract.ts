import { z } from 'zod';
import type {
  DescentAnswer,
  FamilyPage,
  FitsAnswer,
  MakerPage,
  ModelPage,
  PartPage,
  RelatedAnswer,
  SearchHit,
  SheetSummary,
  Vocabulary,
} from '../../db/answers.ts';
import { seenSchema, sheetSchema } from '../../db/sheets/schema.ts';
import type { Trouble } from '../../db/trouble.ts';
import type {
  Answer,
  BuildSheet,
  Compared,
  Completion,
  CompletionProgress,
  FamilyId,
  FeatureId,
  Listing,
  MakerId,
  ModelId,
  NameAnswer,
  NameId,
  PartId,
  PlanAnswer,
  RatesId,
  Sheet,
  SheetId,
  SlotId,
  SlotOptions,
} from '../../reasoner/index.ts';
import { apartCalls } from './apart-calls.ts';
import { call, id, nothing } from './call.ts';
import { caseCalls } from './case-calls.ts';
import { drillCalls } from './drill-calls.ts';
import { entryCalls } from './entry-calls.ts';
import { keyCalls } from './key-calls.ts';
import { oddsCalls } from './odds-calls.ts';
import { reportCalls } from './report-calls.ts';
import { treeCalls } from './tree-calls.ts';
import { triageCalls } from './triage-calls.ts';

/**
 * The bridge, written once: every call the window may make of the desk, with the schema its argument is parsed by.
 * Both transports (Electron IPC, loopback HTTP) carry exactly these calls and pass the same contract tests.
 */
const stock = z.array(id<PartId>()).max(100_000).default([]);
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

export const contract = {
  'atlas.vocabulary': call(nothing).returns<Vocabulary>(),
  'atlas.search': call(z.strictObject({ text: z.string().max(200), limit: z.number().int().min(1).max(200) })).returns<
    readonly SearchHit[]
  >(),
  'atlas.maker': call(z.strictObject({ id: id<MakerId>() })).returns<MakerPage>(),
  'atlas.family': call(z.strictObject({ id: id<FamilyId>() })).returns<FamilyPage>(),
  'atlas.model': call(z.strictObject({ id: id<ModelId>() })).returns<ModelPage>(),
  'atlas.part': call(z.strictObject({ id: id<PartId>() })).returns<PartPage>(),
  'atlas.fits': call(z.strictObject({ part: id<PartId>() })).returns<FitsAnswer>(),
  'atlas.descent': call(z.strictObject({ family: id<FamilyId>() })).returns<DescentAnswer>(),
  'atlas.related': call(z.strictObject({ a: id<FamilyId>(), b: id<FamilyId>() })).returns<RelatedAnswer>(),
  ...treeCalls,
  ...apartCalls,
  ...entryCalls,
  ...keyCalls,
  ...drillCalls,
  ...oddsCalls,
  ...reportCalls,
  ...triageCalls,
  'sheets.list': call(nothing).returns<readonly SheetSummary[]>(),
  'sheets.open': call(z.strictObject({ id: id<SheetId>() })).returns<Sheet>(),
  /** Saves the sheet under its id, new or not. A sample is copied to the shop's own on its first save (same id). Its case gets an entry, and `who` is who saved it. */
  'sheets.save': call(z.strictObject({ sheet: sheetSchema, who: z.string().max(200).default('') })).returns<SheetSummary>(),
  'sheets.remove': call(z.strictObject({ id: id<SheetId>() })).returns<null>(),
  /** Reads the text of a sheet file (JSON) against the atlas; nothing is saved. */
  'sheets.read': call(z.strictObject({ text: z.string().max(4_000_000), file: z.string().max(300) })).returns<Sheet>(),
  /** The sheet as the text of a sheet file. */
  'sheets.write': call(z.strictObject({ sheet: sheetSchema })).returns<string>(),
  /** The verdict on a sheet as it stands in the window, saved or not. Conflicts and swaps are there for the claimed name; of any other name they are asked for by `verdict.explain`. */
  'verdict.of': call(z.strictObject({ sheet: sheetSchema })).returns<Answer>(),
  /** Conflicts and swap sets of any one name, whatever its rung: its conflicts up to a thousand, or `all` of them, which may take seconds. */
  'verdict.explain': call(
    z.strictObject({ sheet: sheetSchema, name: id<NameId>(), all: z.boolean().exactOptional() }),
  ).returns<NameAnswer>(),
  /** What the text of an offer claims, each with its place in it and what it could become on the sheet; never evidence (O1). */
  'listing.read': call(z.strictObject({ text: z.string().max(20_000) })).returns<Listing>(),
  /** A build on paper as it stands in the window: joints, works, cost and name in one answer. `stock`: parts that need not be bought. */
  'build.plan': call(z.strictObject({ sheet: sheetSchema, stock })).returns<PlanAnswer>(),
  /** What may go into one slot beside the parts chosen: what drops in, what needs work, and why the rest does not. */
  'build.options': call(z.strictObject({ sheet: sheetSchema, slot: id<SlotId>() })).returns<SlotOptions>(),
  /** The sheet that goes to the bench, section by section, to be printed. */
  'build.sheet': call(z.strictObject({ sheet: sheetSchema, stock })).returns<BuildSheet>(),
  /** Starts a search for every build that fills the open slots and that no other beats; the token is asked about with `build.progress`. */
  'build.complete': call(
    z.strictObject({ sheet: sheetSchema, constraints, limit: z.number().int().min(1).max(1000).default(200) }),
  ).returns<{
    readonly token: string;
  }>(),
  'build.progress': call(z.strictObject({ token: id() })).returns<SearchState>(),
  /** Stops a search; what it has found is then its answer. */
  'build.cancel': call(z.strictObject({ token: id() })).returns<null>(),
  /** Two builds side by side, differences first. */
  'compare.builds': call(z.strictObject({ a: sheetSchema, b: sheetSchema, stock })).returns<Compared>(),
  'compare.models': call(z.strictObject({ a: id<ModelId>(), b: id<ModelId>() })).returns<Compared>(),
  ...caseCalls,
} as const;

export type Contract = typeof contract;
export type CallName = keyof Contract;
export type CallArgs<C extends CallName> = z.input<Contract[C]['args']>;
export type CallResult<C extends CallName> = Contract[C]['result'];

export type { Trouble };

/** Where a search for builds stands. */
export type SearchState =
  | { readonly state: 'running'; readonly progress: CompletionProgress }
  | { readonly state: 'done'; readonly completion: Completion };

export type Reply<C extends CallName> =
  | { readonly ok: true; readonly value: CallResult<C> }
  | { readonly ok: false; readonly trouble: Trouble };

/** The bridge as the window sees it: `window.desk.ask('atlas.part', { id })`. */
export interface Bridge {
  ask<C extends CallName>(name: C, args: CallArgs<C>): Promise<Reply<C>>;
}
