import { z } from 'zod';
import type { Named } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import { id, words } from '../atlas/schemas.ts';
import { shown } from '../read/faults.ts';
import { pathText } from '../read/json-places.ts';
import { expectedBy } from '../read/parse-json.ts';
import type { EditedList, EditFault } from './seen.ts';

const whole = z.int().min(-1_000_000).max(1_000_000);
const size = z.number().min(-1_000_000).max(1_000_000);
const several = z.array(words).refine((texts) => new Set(texts).size === texts.length, { error: 'every one once' });

/** What can be said of a feature, as `facts.csv` says it (FORMAT.md); whether it is one of the feature's kind, the pack's own check says. */
const factSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('count'), from: whole, to: whole }),
  z.strictObject({ kind: z.literal('measure'), nominal: size, lower: size, upper: size, code: words.exactOptional() }),
  z.strictObject({ kind: z.literal('choice'), anyOf: several.min(1) }),
  z.strictObject({ kind: z.literal('presence'), present: z.boolean() }),
  z.strictObject({ kind: z.literal('mark'), anyOf: several, blank: z.boolean() }),
  z.strictObject({ kind: z.literal('not known') }),
]);

/** A part as the atlas has it. */
export const partSchema = z.strictObject({
  id: id(),
  slot: id(),
  name: words,
  maker: id().nullable(),
  numbers: several,
  patternOf: id().exactOptional(),
  supersedes: id().exactOptional(),
  facts: z.record(z.string(), factSchema),
  factSources: z.record(z.string(), id()).exactOptional(),
  source: id(),
});

const schemas = new Map<string, z.ZodType>(listsAndParts.map(({ name, schema }) => [name, name === 'parts' ? partSchema : schema]));
const ones = new Map<string, string>(listsAndParts.map(({ name, one }) => [name, one]));

export const isEdited = (list: EditedList): boolean => schemas.has(list);

/** What one entry of a list is called: `maker`. */
export const oneOf = (list: EditedList): string => ones.get(list) ?? list;

/** A thing as sentences name it: `part “x”, facts, bore`. Steps that are null are left out. */
export const whereText = (list: EditedList, id: string, ...steps: readonly (string | null)[]): string =>
  [`${oneOf(list)} “${id}”`, ...steps].filter((step) => step !== null).join(', ');

export const editFault = (
  edit: number | null,
  list: EditedList,
  of: string | null,
  field: string | null,
  found: string,
  expected: string,
): EditFault => {
  const where = of === null ? [`the list ${list}`, field].filter((step) => step !== null).join(', ') : whereText(list, of, field);
  return { edit, list, id: of, field, found, expected, sentence: `${where}: found ${found}, expected ${expected}.` };
};

export const noSuchList = (edit: number, list: EditedList, of: string | null): EditFault =>
  editFault(edit, list, of, null, 'no such list', `a list of the atlas: ${[...schemas.keys()].join(', ')}`);

/** An entry as its list has it, or every fault of it with its field. */
export const readEntry = (
  edit: number,
  list: EditedList,
  put: Readonly<Record<string, unknown>>,
): { readonly entry: Named } | { readonly faults: readonly EditFault[] } => {
  const of = typeof put.id === 'string' ? put.id : null;
  const schema = schemas.get(list);
  if (schema === undefined) return { faults: [noSuchList(edit, list, of)] };
  const parsed = schema.safeParse(put, { reportInput: true });
  if (parsed.success) return { entry: parsed.data as Named };
  return {
    faults: parsed.error.issues.flatMap((issue) =>
      issue.code === 'unrecognized_keys'
        ? issue.keys.map((key) =>
            editFault(edit, list, of, pathText([...issue.path, key]), `the field “${key}”`, 'only the fields of the format'),
          )
        : [editFault(edit, list, of, pathText(issue.path) || null, shown(issue.input), expectedBy(issue))],
    ),
  };
};
