/** An entry as plain data. What is `undefined` is not there. */
export type Json = string | number | boolean | null | readonly Json[] | JsonObject;
export interface JsonObject {
  readonly [field: string]: Json | undefined;
}

/** The way to a value in an entry: fields, and places of lists from 0. */
export type Path = readonly (string | number)[];

export const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The same with another value in a field; `undefined` takes the field away. Fields keep their order. */
export const withField = (of: JsonObject, field: string, value: Json | undefined): JsonObject => {
  if (value !== undefined) return { ...of, [field]: value };
  const { [field]: _gone, ...rest } = of;
  return rest;
};

/** The way as faults say it: `numbering[0].pieces[2].text`. */
export const pathText = (path: Path): string =>
  path.map((step, at) => (typeof step === 'number' ? `[${step}]` : `${at === 0 ? '' : '.'}${step}`)).join('');

/** Whether a way is one of those a pattern means: `*` is every place of a list, or whatever stands there. */
export const isAt = (path: Path, pattern: readonly string[]): boolean =>
  path.length === pattern.length && pattern.every((step, at) => step === '*' || step === String(path[at]));
