import { csvTable } from './csv.ts';
import type { Allowance, FactDraft, PartDraft } from './draft.ts';

/**
 * The three bulk tables of a pack: rows in the order of parts and models. Features and slots are another pack's, and go by id; so every pack is written in
 * one way only.
 */

export const partsTable = (parts: readonly PartDraft[]): string =>
  csvTable(
    ['id', 'slot', 'name', 'maker', 'numbers', 'pattern_of', 'supersedes', 'source'],
    parts.map((part) => [
      part.id,
      part.slot,
      part.name,
      part.maker ?? '',
      part.numbers.join(';'),
      part.patternOf ?? '',
      part.supersedes ?? '',
      part.source,
    ]),
  );

interface Named {
  readonly id: string;
}

/** Compares ids by their place in a list. */
const placesIn = (list: readonly Named[]): ((a: string, b: string) => number) => {
  const place = new Map(list.map(({ id }, i) => [id, i]));
  return (a, b) => (place.get(a) ?? -1) - (place.get(b) ?? -1);
};

const byId = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export const allowedTable = (allowed: readonly Allowance[], models: readonly Named[], parts: readonly Named[]): string => {
  const [byModel, byPart] = [placesIn(models), placesIn(parts)];
  const rows = [...allowed].sort((a, b) => byModel(a.model, b.model) || byId(a.slot, b.slot) || byPart(a.part, b.part));
  return csvTable(
    ['model', 'slot', 'part', 'role'],
    rows.map(({ model, slot, part, role }) => [model, slot, part, role]),
  );
};

export const factsTable = (parts: readonly PartDraft[]): string =>
  csvTable(
    ['part', 'feature', 'value', 'lower', 'upper', 'code', 'source'],
    parts.flatMap((part) =>
      Object.entries(part.facts)
        .sort(([a], [b]) => byId(a, b))
        .map(([feature, fact]) => [part.id, feature, ...cells(fact), part.factSources?.[feature] ?? '']),
    ),
  );

/** value, lower, upper, code */
const cells = (fact: FactDraft): readonly [string, string, string, string] => {
  const only = (value: string): readonly [string, string, string, string] => [value, '', '', ''];
  switch (fact.kind) {
    case 'count':
      return only(fact.from === fact.to ? `${fact.from}` : `${fact.from}..${fact.to}`);
    case 'measure':
      return [`${fact.nominal}`, `${fact.lower}`, `${fact.upper}`, ''];
    case 'coded measure':
      return [`${fact.nominal}`, '', '', fact.code];
    case 'choice':
      return only(fact.anyOf.join('|'));
    case 'presence':
      return only(fact.present ? 'yes' : 'no');
    case 'mark':
      return only([...fact.anyOf, ...(fact.blank ? ['(blank)'] : [])].join('|'));
    case 'not known':
      return only('?');
  }
};
