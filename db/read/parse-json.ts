import type { z } from 'zod';
import { halfIn } from '../../reasoner/plain/well-formed.ts';
import { shown } from './faults.ts';
import { type JsonPlaces, pathText, placesIn } from './json-places.ts';

export type ParsedJson<T> =
  | { readonly ok: true; readonly value: T; readonly places: JsonPlaces }
  /** `isJson` is false when the text is no JSON at all. */
  | { readonly ok: false; readonly isJson: boolean; readonly faults: readonly JsonFault[] };

export interface JsonFault {
  readonly row: number;
  readonly character: number;
  /** Path within the text, or null for the whole. */
  readonly column: string | null;
  readonly found: string;
  /** To stand after "expected". */
  readonly expected: string;
}

/** A JSON text as the schema's value, or everything that is wrong with it, each with its row. */
export const parseJson = <S extends z.ZodType>(text: string, schema: S): ParsedJson<z.output<S>> => {
  const places = placesIn(text);
  if ('found' in places) {
    const { row, character, found, expected } = places;
    return { ok: false, isJson: false, faults: [{ row, character, column: null, found, expected }] };
  }
  const raw: unknown = JSON.parse(text);
  const faults: JsonFault[] = places.repeated.map(({ path, row, character }) => ({
    row,
    character,
    column: pathText(path),
    found: 'the same key twice',
    expected: 'every key once',
  }));
  const half = halfIn(raw);
  if (half !== null)
    faults.push({
      row: places.rowOf(half),
      character: places.characterOf(half),
      column: columnOf(half),
      found: 'half a surrogate pair',
      expected: 'text that is whole',
    });
  const parsed = schema.safeParse(raw, { reportInput: true });
  if (!parsed.success) faults.push(...parsed.error.issues.flatMap((issue) => faultsOf(issue, places)));
  if (parsed.success && faults.length === 0) return { ok: true, value: parsed.data, places };
  return { ok: false, isJson: true, faults };
};

const faultsOf = (issue: z.core.$ZodIssue, places: JsonPlaces): JsonFault[] => {
  const at = (path: readonly PropertyKey[], found: string, expected: string): JsonFault => ({
    row: places.rowOf(path),
    character: places.characterOf(path),
    column: columnOf(path),
    found,
    expected,
  });
  if (issue.code !== 'unrecognized_keys') return [at(issue.path, shown(inputOf(issue)), expectedBy(issue))];
  return issue.keys.map((key) =>
    at(
      [...issue.path, key],
      `the field "${key}"`,
      key === 'unit' ? "no unit here: a measure is in its feature's own unit, mm or deg" : 'only the fields of the format',
    ),
  );
};

/** What stood at the path of an issue: of a union told apart by a field, what that field said. */
const inputOf = (issue: z.core.$ZodIssue): unknown => {
  const { input, path } = issue;
  const told = issue.code === 'invalid_union' ? issue.discriminator : undefined;
  return told !== undefined && path.at(-1) === told && typeof input === 'object'
    ? (input as Record<string, unknown> | null)?.[told]
    : input;
};

/** A key that is not whole could not be shown, nor sent on. */
const columnOf = (path: readonly PropertyKey[]): string | null => pathText(path).replace(/\p{Surrogate}/gu, '\ufffd') || null;

const types: Readonly<Record<string, string>> = {
  int: 'a whole number',
  number: 'a number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
};

/** What the schema wants in that place, to stand after "expected". */
export const expectedBy = (issue: z.core.$ZodIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return types[issue.expected] ?? `the type ${issue.expected}`;
    case 'invalid_value':
      // Past a handful the schema says in words what they are.
      return issue.values.length > 12 && !issue.message.startsWith('Invalid')
        ? issue.message
        : issue.values.map((value) => JSON.stringify(value)).join(' or ');
    case 'invalid_union':
      return issue.discriminator === undefined ? 'one of the forms of the format' : `a known ${issue.discriminator}`;
    case 'too_small':
      return `at least ${issue.minimum}${sizeUnit(issue.origin, issue.minimum)}`;
    case 'too_big':
      return `at most ${issue.maximum}${sizeUnit(issue.origin, issue.maximum)}`;
    default:
      return issue.message;
  }
};

const sizeUnit = (origin: string, size: number | bigint): string => {
  const units: Readonly<Record<string, readonly [string, string]>> = { string: [' letter', ' letters'], array: [' entry', ' entries'] };
  const [one, several] = units[origin] ?? ['', ''];
  return Number(size) === 1 ? one : several;
};
