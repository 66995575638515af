import { z } from 'zod';
import type { FeatureId, MakerId, SlotId } from '../../reasoner/index.ts';

/** Whether it leads anywhere is asked where a table is read. */
const idText = z.string().min(1).max(100);

/** What a table is of: a row a part; a row a model, a column a slot; a row a fact. */
export const tableKinds = ['parts', 'models', 'facts'] as const;
export type TableKind = (typeof tableKinds)[number];

/** Units a size may be written in; what is not said is the feature’s own. */
export const writtenUnits = ['mm', 'cm', 'inch', 'thou', 'deg'] as const;
export type WrittenUnit = (typeof writtenUnits)[number];

/** What of a size stands in a column: it alone, a deviation from it, a limit of it, or an ISO 286 code. */
export const figureParts = ['size', 'lower', 'upper', 'least', 'greatest', 'code'] as const;
export type FigurePart = (typeof figureParts)[number];

/** What a column says by itself, whatever the atlas holds. */
export const plainUses = [
  'ignored',
  'id',
  'name',
  'slot',
  'maker',
  'numbers',
  'pattern of',
  'supersedes',
  'source',
  'as brought out',
  // Of a model.
  'family',
  'generation',
  'from',
  'to',
  'open-ended',
  // Of a fact.
  'part',
  'feature',
  'value',
  'lower',
  'upper',
  'code',
  'unit',
] as const;
export type PlainUse = (typeof plainUses)[number];

const featureId = idText.transform((text) => text as FeatureId);
const slotId = idText.transform((text) => text as SlotId);

/** What one column is taken for. */
export const columnUseSchema = z.discriminatedUnion('is', [
  z.strictObject({ is: z.enum(plainUses) }),
  z.strictObject({
    is: z.literal('figure'),
    /** One of each slot at most: which of them a cell speaks of is said by its row’s slot. */
    features: z.array(featureId).min(1).max(200),
    part: z.enum(figureParts),
    unit: z.enum(writtenUnits).nullable(),
    /** How far a size that stands alone may lie either way, in the column’s unit. */
    within: z.number().min(0).max(1000).nullable(),
  }),
  z.strictObject({ is: z.literal('fitted'), slot: slotId, role: z.enum(['names', 'option', 'service']) }),
]);
export type ColumnUse = z.infer<typeof columnUseSchema>;

/** How a table is read: where its headings stand, what its columns are, and what holds for all rows. */
export const matchingSchema = z.strictObject({
  kind: z.enum(tableKinds),
  sheet: z.string().max(300).nullable(),
  /** The row of the headings, as a spreadsheet counts; 0 where there are none. */
  headings: z.int().min(0).max(20_000),
  columns: z.array(columnUseSchema).max(300),
  slot: slotId.nullable(),
  /** The maker of every row that names none; `none`: they bear no maker’s name. */
  maker: z.union([z.strictObject({ id: idText.transform((text) => text as MakerId) }), z.literal('none')]).nullable(),
});
export type Matching = z.infer<typeof matchingSchema>;

/** What somebody has said of a table beside its cells. Cells by `row:column`, as a spreadsheet counts rows, and columns from 0. */
const cell = z.string().regex(/^\d{1,5}:\d{1,3}$/);
const line = z.string().max(4000);
export const mendedSchema = z.strictObject({
  /** What is to stand in a cell instead. */
  cells: z.record(cell, line),
  /** Cells that are right as they stand, though a figure is hard to believe or the atlas has moved on. */
  confirmed: z.array(cell).max(100_000),
  /** Rows that are not to be brought in. */
  left: z.array(z.int().min(1).max(20_000)).max(20_000),
  /** Makers nobody has listed, to be added under these names. */
  makers: z.array(z.string().min(1).max(200)).max(1000),
});
export type Mended = Readonly<z.infer<typeof mendedSchema>>;
