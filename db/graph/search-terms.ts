import type { Pack } from '../atlas/pack.ts';
import type * as t from '../schema.ts';

type Term = typeof t.searchTerms.$inferInsert;

/** A name or number without case, accents and everything but letters and digits: `KNOT 41-7/2` and `knot4172` are one. */
export const compact = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();

/** What a pack's makers, families, generations, models and parts may be looked up by, in the order they are offered. */
export const termsOf = (pack: Pack): Term[] => {
  const row = (nodeKind: Term['nodeKind'], nodeId: string, field: Term['field'], term: string): Term => ({
    pack: pack.head.id,
    nodeKind,
    nodeId,
    field,
    term,
    compact: compact(term),
  });
  return [
    ...pack.makers.flatMap((maker) => [
      row('maker', maker.id, 'name', maker.name),
      ...maker.tradeNames.filter(({ name }) => name !== maker.name).map(({ name }) => row('maker', maker.id, 'trade name', name)),
    ]),
    ...pack.families.map((family) => row('family', family.id, 'name', family.name)),
    ...pack.generations.map((generation) => row('generation', generation.id, 'name', generation.name)),
    ...pack.models.map((model) => row('model', model.id, 'name', model.name)),
    ...pack.parts.flatMap((part) => [
      row('part', part.id, 'name', part.name),
      ...part.numbers.map((number) => row('part', part.id, 'number', number)),
    ]),
  ];
};
