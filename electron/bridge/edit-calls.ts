import { z } from 'zod';
import type { Edit, EditFault } from '../../db/answers.ts';
import type { SaidOfMany } from '../../db/changes/many-edits.ts';
import type { Choices, Difference, Merge } from '../../db/changes/merge-edits.ts';
import type { Fact, FeatureId, MakerId, PartId, SlotId, SourceId } from '../../reasoner/index.ts';
import { call, id, reasonedCall } from './call.ts';

export type { Choices, Difference, Merge, SaidOfMany };

const list = z.string().min(1).max(40);
const text = z.string().max(200);

/** JSON Schema (draft 2020-12), as far as entries of the atlas need it. */
export interface Shape {
  readonly type?: 'string' | 'number' | 'integer' | 'boolean' | 'null' | 'object' | 'array';
  readonly const?: string | number | boolean;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Shape[];
  readonly oneOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  /** What stands under every key, where the keys are free; false where there are no others. */
  readonly additionalProperties?: Shape | false;
  readonly items?: Shape;
  readonly minItems?: number;
  readonly minLength?: number;
}

/** What a form for entries of a list is made from. */
export interface EntryForm {
  /** What one entry is called: `maker`. */
  readonly one: string;
  readonly shape: Shape;
  /** Where ids of other entries stand, and of which list; `*` is every place of a list or under every key, `#` every key. */
  readonly references: readonly { readonly at: readonly string[]; readonly list: string }[];
}

/** An entry by what people call it. `detail`: what two of one name are told apart by. */
export interface EntryNamed {
  readonly id: string;
  readonly name: string;
  readonly detail: string;
}

/** What was typed for a feature, read. */
export type CellRead =
  | { readonly ok: true; readonly fact: Fact }
  | {
      readonly ok: false;
      readonly sentence: string;
      /** What may have been meant, to be written in its place. */
      readonly likely: readonly { readonly text: string; readonly why: string }[];
    };

/** What a text would read as by a maker that is not saved yet. */
export interface MakerReads {
  /** By its grammar; null where it has none. */
  readonly name: {
    readonly pieces: readonly { readonly token: string; readonly text: string }[];
    readonly faults: readonly string[];
    /** The model of the atlas that is listed under this name. */
    readonly model: string | null;
  } | null;
  /** One for each way a pattern reads it. */
  readonly numbers: readonly {
    readonly pattern: string;
    readonly pieces: readonly { readonly piece: string; readonly text: string }[];
    readonly slot: SlotId | null;
    readonly made: { readonly from: number | null; readonly to: number | null };
    readonly month: number | null;
    readonly check: { readonly stamped: string; readonly wanted: string } | null;
  }[];
  readonly patterns: number;
}

/** What a fact looks like is asked where the edits are looked at. */
const facts = z.record(id<FeatureId>(), z.looseObject({ kind: z.string().max(40) }));

/** What forms ask while an entry is edited. Nothing is kept by any of these. */
export const editCalls = {
  'edit.form': reasonedCall(z.strictObject({ list })).returns<EntryForm>(),
  /** What is wrong with an entry by its list’s schema alone, field by field: at once, before the atlas is asked. */
  'edit.check': call(z.strictObject({ list, put: z.record(z.string().max(100), z.unknown()) })).returns<readonly EditFault[]>(),
  /** Entries of a list by what is typed of their names, numbers or ids, best first; all of them where nothing is. `slot`: parts of this slot alone. */
  'edit.entries': reasonedCall(z.strictObject({ list, text, slot: id<SlotId>().nullable(), limit: z.int().min(1).max(2000) })).returns<
    readonly EntryNamed[]
  >(),
  /** Each of these entries by name; null where there is none. */
  'edit.named': reasonedCall(z.strictObject({ of: z.array(z.strictObject({ list, id: id<string>() })).max(2000) })).returns<
    readonly (EntryNamed | null)[]
  >(),
  /** Facts as they are typed. */
  'edit.cells': reasonedCall(z.strictObject({ facts })).returns<Readonly<Record<FeatureId, string>>>(),
  /** What was typed for each feature, read as the trade writes it: `51.5 ±0.05`, `51,5`, `10 h6`, `?`. */
  'edit.facts': reasonedCall(z.strictObject({ cells: z.record(id<FeatureId>(), z.string().max(2000)) })).returns<
    Readonly<Record<FeatureId, CellRead>>
  >(),
  /** What a text would read as by this maker, saved or not: as a model's name and as a number. */
  'edit.reads': reasonedCall(z.strictObject({ maker: z.record(z.string().max(100), z.unknown()), text })).returns<MakerReads>(),
  /** The edits that say one thing of several parts (E3). */
  'edit.many': reasonedCall(
    z.strictObject({
      parts: z.array(id<PartId>()).min(1).max(100_000),
      said: z.discriminatedUnion('of', [
        z.strictObject({
          of: z.literal('feature'),
          feature: id<FeatureId>(),
          fact: z.looseObject({ kind: z.string().max(40) }).nullable(),
        }),
        z.strictObject({ of: z.literal('maker'), maker: id<MakerId>().nullable() }),
        z.strictObject({ of: z.literal('source'), source: id<SourceId>() }),
      ]),
    }),
  ).returns<readonly Edit[]>(),
  /** The edits that give an entry another id (E1). */
  'edit.renamed': reasonedCall(z.strictObject({ list, from: id<string>(), to: id<string>() })).returns<readonly Edit[]>(),
  /** The edits that make two entries one, with what somebody must decide (E1). */
  'edit.merged': reasonedCall(
    z.strictObject({
      list,
      from: id<string>(),
      into: id<string>(),
      choices: z.record(z.string().max(300), z.enum(['kept', 'other'])),
    }),
  ).returns<Merge>(),
  /** The edits that write a part number another way everywhere (E1). */
  'edit.renumbered': reasonedCall(z.strictObject({ from: z.string().min(1).max(200), to: z.string().min(1).max(200) })).returns<
    readonly Edit[]
  >(),
} as const;
