import type { Fact } from '../../reasoner/index.ts';
import type * as t from '../schema.ts';

export type FactRow = typeof t.facts.$inferSelect;

/** What a row says of the fact itself. */
export type FactColumns = Omit<FactRow, 'part' | 'feature' | 'source'>;

const noColumns = { nominal: null, lower: null, upper: null, code: null, anyOf: null, blank: null, present: null } as const;

/** The columns a fact is kept in; `factOf` gives it back. Measures in the feature's unit. */
export const factColumns = (fact: Fact): FactColumns => {
  switch (fact.kind) {
    case 'count':
      return { ...noColumns, kind: fact.kind, lower: fact.from, upper: fact.to };
    case 'measure':
      return { ...noColumns, kind: fact.kind, nominal: fact.nominal, lower: fact.lower, upper: fact.upper, code: fact.code ?? null };
    case 'choice':
      return { ...noColumns, kind: fact.kind, anyOf: fact.anyOf };
    case 'presence':
      return { ...noColumns, kind: fact.kind, present: fact.present };
    case 'mark':
      return { ...noColumns, kind: fact.kind, anyOf: fact.anyOf, blank: fact.blank };
    case 'not known':
      return { ...noColumns, kind: fact.kind };
  }
};

/** A row of `facts` as the fact it holds. The table's own checks promise the columns each kind needs. */
export const factOf = (row: FactColumns): Fact => {
  const { kind, nominal, lower, upper, code, anyOf, blank, present } = row;
  switch (kind) {
    case 'count':
      return { kind, from: whole(lower), to: whole(upper) };
    case 'measure':
      return { kind, nominal: whole(nominal), lower: whole(lower), upper: whole(upper), ...(code === null ? {} : { code }) };
    case 'choice':
      return { kind, anyOf: whole(anyOf) };
    case 'presence':
      return { kind, present: whole(present) };
    case 'mark':
      return { kind, anyOf: whole(anyOf), blank: whole(blank) };
    case 'not known':
      return { kind };
  }
};

/** A fact with its fields in their one order, as `factOf` has it of `factColumns`; without those, for this is asked of every fact of a pack several times. */
export const plainFact = (fact: Fact): Fact => {
  const { kind } = fact;
  switch (kind) {
    case 'count':
      return { kind, from: fact.from, to: fact.to };
    case 'measure': {
      const { nominal, lower, upper, code } = fact;
      return code === undefined ? { kind, nominal, lower, upper } : { kind, nominal, lower, upper, code };
    }
    case 'choice':
      return { kind, anyOf: fact.anyOf };
    case 'presence':
      return { kind, present: fact.present };
    case 'mark':
      return { kind, anyOf: fact.anyOf, blank: fact.blank };
    case 'not known':
      return { kind };
  }
};

const whole = <T>(value: T | null): T => {
  if (value === null) throw new Error('a fact lacks a column its kind needs');
  return value;
};
