import type { Fact, Part } from '../atlas/atlas.ts';
import type { FeatureId } from '../ids.ts';
import { sameValue } from '../plain/same-value.ts';

/** Distinct values over the parts of a slot, and whose is which. */
export interface Table<Value = unknown> {
  readonly distinct: readonly Value[];
  readonly of: Int32Array;
}

export type FactTable = Table<Fact>;

/** What the parts of one slot can be read to have of a feature: each a list of facts of which any one may hold. */
export type ReadTable = Table<readonly Fact[]>;

export type ReadOf = (feature: FeatureId) => ReadTable;

const notKnown: Fact = { kind: 'not known' };

/** A reading of a part as it is made is the one fact known of it. */
export const readAsMade =
  (factsOf: (feature: FeatureId) => FactTable): ReadOf =>
  (feature) => {
    const facts = factsOf(feature);
    let table = asMade.get(facts);
    if (table === undefined) {
      table = { distinct: facts.distinct.map((fact) => [fact]), of: facts.of };
      asMade.set(facts, table);
    }
    return table;
  };

const asMade = new WeakMap<FactTable, ReadTable>();

/** Tables of parts some of which said something else before, in the same place. */
export interface Before<Of> {
  readonly parts: readonly Part[];
  readonly tableOf: (feature: FeatureId) => Of;
}

/**
 * For each feature the distinct facts of a slot's parts, worked out when first asked for.
 * @param before of as many parts: the table of a feature of which none says anything else is the very same
 */
export const factTablesOf = (parts: readonly Part[], before: Before<FactTable> | null = null): ((feature: FeatureId) => FactTable) => {
  const made = new Map<FeatureId, FactTable>();
  const changed = before === null ? [] : parts.flatMap((part, at) => (part === before.parts[at] ? [] : [[before.parts[at] as Part, part]]));
  const stands = (feature: FeatureId): boolean =>
    changed.every(([was, is]) => sameFact((was as Part).facts[feature] ?? notKnown, (is as Part).facts[feature] ?? notKnown));
  return (feature) => {
    const known = made.get(feature);
    if (known) return known;
    if (before !== null && stands(feature)) {
      const same = before.tableOf(feature);
      made.set(feature, same);
      return same;
    }
    const distinct: Fact[] = [];
    const numberOf = factNumbers((fact) => distinct.push(fact) - 1);
    const of = new Int32Array(parts.length);
    parts.forEach((part, i) => {
      of[i] = numberOf(part.facts[feature] ?? notKnown);
    });
    const table = { distinct, of };
    made.set(feature, table);
    return table;
  };
};

/** Whether two facts are alike to the last field, as one of them stands in a table for both. */
const sameFact = (a: Fact, b: Fact): boolean => a === b || sameValue(a, b);

/** Numbers facts, alike ones alike. Sizes, by far the most, are compared as numbers: to write them out would take longer than all else here. */
const factNumbers = (add: (fact: Fact) => number): ((fact: Fact) => number) => {
  const sizes = new Map<number, { readonly lower: number; readonly upper: number; readonly number: number }[]>();
  const others = new Map<string, number>();
  return (fact) => {
    if (fact.kind === 'measure') {
      const { nominal, lower, upper } = fact;
      const alike = sizes.get(nominal) ?? [];
      if (alike.length === 0) sizes.set(nominal, alike);
      const known = alike.find((each) => each.lower === lower && each.upper === upper);
      if (known) return known.number;
      const number = add(fact);
      alike.push({ lower, upper, number });
      return number;
    }
    const key = factKey(fact);
    const known = others.get(key);
    if (known !== undefined) return known;
    const number = add(fact);
    others.set(key, number);
    return number;
  };
};

const factKey = (fact: Exclude<Fact, { kind: 'measure' }>): string => {
  switch (fact.kind) {
    case 'count':
      return `c${fact.from}:${fact.to}`;
    case 'choice':
      return `o${fact.anyOf.join('\u0000')}`;
    case 'presence':
      return fact.present ? 'y' : 'n';
    case 'mark':
      return `k${fact.blank}\u0000${fact.anyOf.join('\u0000')}`;
    case 'not known':
      return '?';
  }
};
