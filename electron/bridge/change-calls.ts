import { z } from 'zod';
import type {
  ChangeEntry,
  ChangeMade,
  ChangeSeen,
  ChangeWhole,
  Edit,
  EditedList,
  EntrySeen,
  HeadId,
  StoodAtlas,
  StoodEntry,
  UndoSeen,
} from '../../db/answers.ts';
import type { CasesWould, ModelId, PartId, RetoldProgress, SlotId, WouldChange } from '../../reasoner/index.ts';
import { call, id, longCall, runCall } from './call.ts';
import { fileToken } from './file-parts.ts';
import { saidWords } from './pack-calls.ts';

const list = z
  .string()
  .min(1)
  .max(40)
  .transform((text) => text as EditedList);

/** The store reads an entry by its list's schema, and tells what is wrong field by field. */
const edit = z.union([
  z.strictObject({ list, put: z.record(z.string().max(100), z.unknown()) }),
  z.strictObject({ list, drop: id<string>(), into: id<string>().exactOptional() }),
  z.strictObject({
    allow: z.strictObject({ model: id<ModelId>(), slot: id<SlotId>(), part: id<PartId>(), role: z.enum(['names', 'option', 'service']) }),
  }),
  z.strictObject({ disallow: z.strictObject({ model: id<ModelId>(), part: id<PartId>() }) }),
]) satisfies z.ZodType<Edit>;
export const edits = z.array(edit).min(1).max(100_000);

const words = z.string().max(2000);
const head = z
  .string()
  .regex(/^([0-9a-f]{64})?$/, { error: 'a head of the journal: 64 hexadecimal digits, or nothing' })
  .transform((text) => text as HeadId);
const change = z.int().min(1);
const pack = z.string().min(1).max(200);
/** A pack that is not put in yet, from the program or as it was brought, with what was decided of it; or not taken out yet. */
const packMove = z.union([
  z.strictObject({ putIn: pack }),
  z.strictObject({ takeOut: pack }),
  z.strictObject({
    bring: z.strictObject({
      token: fileToken,
      signerIsFine: z.boolean(),
      holds: z.record(z.string().max(1000), z.enum(['shop', 'pack'])),
      words: saidWords,
    }),
  }),
]);
export type PackMove = z.output<typeof packMove>;
/** What is not made yet: edits, the undoing of a change, a pack put in or taken out. */
const of = z.union([z.strictObject({ edits }), z.strictObject({ undo: change }), packMove]);
export type NotMade = z.output<typeof of>;
const said = { who: words, why: words, head } as const;

/** What saved cases would be told, the first of them. */
export interface CasesShown extends CasesWould {
  /** How many `cases` are in all. */
  readonly differ: number;
}
/** Where the judging of saved cases stands. `current`: false once the atlas is another than the one it began with, of which it goes on to speak. */
export type Retelling = { readonly current: boolean } & (
  | { readonly state: 'running'; readonly progress: RetoldProgress }
  | { readonly state: 'done'; readonly result: CasesShown }
);

/** The shop's own words in the atlas: looked at before they are made, made as one, and undone. */
export const changeCalls = {
  /** What edits would come to. Where there are faults they cannot be made. */
  'changes.look': longCall(z.strictObject({ edits })).returns<ChangeSeen>(),
  /** Makes them, all or nothing, where nothing was changed since `head` was read; else `changed-since`. `source`: where they come from, in words. */
  'changes.make': call(z.strictObject({ edits, source: words, ...said })).returns<ChangeMade>(),
  /** The newest first; those before the change of that number where it is given. `of`: those that altered this entry. */
  'changes.list': call(
    z.strictObject({
      before: change.nullable(),
      limit: z.int().min(1).max(200),
      of: z.strictObject({ list, id: id<string>() }).nullable(),
    }),
  ).returns<readonly ChangeEntry[]>(),
  'changes.one': call(z.strictObject({ change })).returns<ChangeWhole>(),
  'changes.lookUndo': longCall(z.strictObject({ change })).returns<UndoSeen>(),
  /** Undoes a change. `rest`: what nothing later rests on, where something later rests on a part of it; without it that is `changed-since`. */
  'changes.undo': call(z.strictObject({ change, rest: z.boolean(), ...said })).returns<ChangeMade>(),
  /** What would be concluded otherwise: names, what parts meet, and how many saved cases there are to be judged again. Null where there are faults. */
  'changes.would': longCall(z.strictObject({ of })).returns<(WouldChange & { readonly cases: number }) | null>(),
  /** Begins to judge every saved case by the atlas as it is and as it would be; the token is asked about with `changes.retelling`. Nothing is saved by judging. */
  'changes.retell': runCall(z.strictObject({ of })).returns<{ readonly token: string }>(),
  'changes.retelling': runCall(z.strictObject({ token: z.uuid() })).returns<Retelling>(),
  /** Stops it; what was judged until then is its answer. */
  'changes.stopRetelling': runCall(z.strictObject({ token: z.uuid() })).returns<null>(),
  /** The atlas, and one entry of it, as they stood at a time. */
  'changes.stood': call(z.strictObject({ until: z.iso.datetime() })).returns<StoodAtlas>(),
  'changes.stoodEntry': call(z.strictObject({ until: z.iso.datetime(), list, id: id<string>() })).returns<StoodEntry>(),
  'changes.entry': call(z.strictObject({ list, id: id<string>() })).returns<EntrySeen>(),
} as const;
