import { z } from 'zod';
import type { ChangeEntry, ChangeMade, ChangeSeen, ChangeWhole, Edit, EditedList, EntrySeen, HeadId, UndoSeen } from '../../db/answers.ts';
import type { ModelId, PartId, SlotId } from '../../reasoner/index.ts';
import { call, id, longCall } from './call.ts';

const list = z
  .string()
  .min(1)
  .max(40)
  .transform((text) => text as EditedList);

/** The store reads an entry by its list's schema, and tells what is wrong field by field. */
const edit = z.union([
  z.strictObject({ list, put: z.record(z.string().max(100), z.unknown()) }),
  z.strictObject({ list, drop: id<string>() }),
  z.strictObject({
    allow: z.strictObject({ model: id<ModelId>(), slot: id<SlotId>(), part: id<PartId>(), role: z.enum(['names', 'option', 'service']) }),
  }),
  z.strictObject({ disallow: z.strictObject({ model: id<ModelId>(), part: id<PartId>() }) }),
]) satisfies z.ZodType<Edit>;
const edits = z.array(edit).min(1).max(100_000);

const words = z.string().max(2000);
const head = z
  .string()
  .regex(/^([0-9a-f]{64})?$/, { error: 'a head of the journal: 64 hexadecimal digits, or nothing' })
  .transform((text) => text as HeadId);
const change = z.int().min(1);
const said = { who: words, why: words, head } as const;

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
  'changes.entry': call(z.strictObject({ list, id: id<string>() })).returns<EntrySeen>(),
} as const;
