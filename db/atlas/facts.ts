import type { Fact } from '../../reasoner/index.ts';
import type * as t from '../schema.ts';

export type FactRow = typeof t.facts.$inferSelect;

/** What a row says of the fact itself. */
export type FactColumns = Omit<FactRow, 'part' | 'feature' | 'source'>;

/** The columns a fact is kept in; `factOf` gives it back. Measures in the feature's unit. */
export const factColumns = (fact: Fact): FactColumns => {
  const { kind } = fact;
  const [nominal, lower, upper, code, anyOf, blank, present] = [null, null, null, null, null, null, null];
  switch (kind) {
    case 'count':
      return { kind, nominal, lower: fact.from, upper: fact.to, code, anyOf, blank, present };
    case 'measure':
      return { kind, nominal: fact.nominal, lower: fact.lower, upper: fact.upper, code: fact.code ?? null, anyOf, blank, present };
    case 'choice':
      return { kind, nominal, lower, upper, code, anyOf: fact.anyOf, blank, present };
    case 'presence':
      return { kind, nominal, lower, upper, code, anyOf, blank, present: fact.present };
    case 'mark':
      return { kind, nominal, lower, upper, code, anyOf: fact.anyOf, blank: fact.blank, present };
    case 'not known':
      return { kind, nominal, lower, upper, code, anyOf, blank, present };
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
