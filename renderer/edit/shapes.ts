import type { Shape } from '../../electron/bridge/edit-calls.ts';
import { isObject, type Json, type JsonObject } from './json.ts';

/** How a value is given in a form. */
export type Given =
  | { readonly as: 'text' }
  | { readonly as: 'number' }
  | { readonly as: 'yes or no' }
  /** One of these and nothing else; figures too, where a field has but a few. */
  | { readonly as: 'one of'; readonly values: readonly (string | number | boolean)[] }
  /** Said, or not said at all. */
  | { readonly as: 'said or not' }
  | { readonly as: 'fields'; readonly shape: Shape }
  /** Several kinds of things, told apart by one field. */
  | { readonly as: 'kinds'; readonly tag: string; readonly shapes: ReadonlyMap<string, Shape> }
  /** Several shapes, told apart by the one field each has. */
  | { readonly as: 'shapes'; readonly shapes: ReadonlyMap<string, Shape> }
  | { readonly as: 'list'; readonly of: Shape }
  | { readonly as: 'table'; readonly of: Shape };

/** The shape of what is there where something is, and whether it may also be said not to be known. */
export const known = (shape: Shape): { readonly shape: Shape; readonly orNotKnown: boolean } => {
  const some = shape.anyOf?.filter(({ type }) => type !== 'null');
  const [only] = some ?? [];
  return only !== undefined && some?.length === 1 ? { shape: only, orNotKnown: true } : { shape, orNotKnown: false };
};

export const givenAs = (shape: Shape): Given => {
  if (shape.const === true) return { as: 'said or not' };
  if (shape.enum !== undefined) return { as: 'one of', values: shape.enum };
  const among = shape.oneOf ?? shape.anyOf;
  if (among !== undefined) {
    const values = among.flatMap((one) => (one.const === undefined ? [] : [one.const]));
    if (values.length === among.length) return { as: 'one of', values };
    const tag = Object.keys(among[0]?.properties ?? {}).find((field) =>
      among.every((one) => typeof one.properties?.[field]?.const === 'string'),
    );
    if (tag === undefined) return { as: 'shapes', shapes: new Map(among.map((one) => [Object.keys(one.properties ?? {})[0] ?? '', one])) };
    return { as: 'kinds', tag, shapes: new Map(among.map((one) => [one.properties?.[tag]?.const as string, one])) };
  }
  switch (shape.type) {
    case 'number':
    case 'integer':
      return { as: 'number' };
    case 'boolean':
      return { as: 'yes or no' };
    case 'array':
      return { as: 'list', of: shape.items ?? {} };
    case 'object':
      return shape.properties === undefined && typeof shape.additionalProperties === 'object'
        ? { as: 'table', of: shape.additionalProperties }
        : { as: 'fields', shape };
    default:
      return { as: 'text' };
  }
};

/**
 * What stands in a new entry before anything is typed: nothing that somebody has not said. A figure is not there, so that its absence is a fault and never a nought;
 * what may be not known is that.
 */
export const blankOf = (shape: Shape): Json | undefined => {
  const { shape: inner, orNotKnown } = known(shape);
  if (orNotKnown) return null;
  const given = givenAs(inner);
  switch (given.as) {
    case 'text':
      return '';
    case 'number':
    case 'one of':
      return undefined;
    case 'yes or no':
      return false;
    case 'said or not':
      return true;
    case 'list':
      return (inner.minItems ?? 0) > 0 ? [blankOf(given.of) ?? ''] : [];
    case 'table':
      return {};
    case 'fields':
      return blankFields(given.shape);
    case 'kinds':
    case 'shapes':
      return blankFields([...given.shapes.values()][0] ?? {});
  }
};

/** The fields that must be there, blank. `kept`: what is said already stays where the shape has such a field. */
export const blankFields = ({ properties = {}, required = [] }: Shape, kept: JsonObject = {}): JsonObject =>
  Object.fromEntries(
    Object.entries(properties).flatMap(([field, shape]) => {
      if (shape.const !== undefined && shape.const !== true) return [[field, shape.const]];
      if (kept[field] !== undefined && fits(kept[field], shape)) return [[field, kept[field]]];
      const blank = required.includes(field) ? blankOf(shape) : undefined;
      return blank === undefined ? [] : [[field, blank]];
    }),
  );

/** Whether a value of one kind can stay when the kind is made another: by its sort alone. */
const fits = (value: Json, shape: Shape): boolean => {
  const { as } = givenAs(known(shape).shape);
  if (typeof value === 'string') return as === 'text';
  if (typeof value === 'number') return as === 'number';
  if (Array.isArray(value)) return as === 'list';
  return isObject(value) && as === 'table';
};

/** What goes on one line of a list. */
export const simple = (shape: Shape): boolean => ['text', 'number', 'one of'].includes(givenAs(known(shape).shape).as);
