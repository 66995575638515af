import { csvTable } from './csv.ts';
import type { Allowance, FactDraft, PartDraft } from './draft.ts';

/** The three bulk tables of a pack, in the order the makers stocked the parts. */

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

export const allowedTable = (allowed: readonly Allowance[]): string =>
  csvTable(
    ['model', 'slot', 'part', 'role'],
    allowed.map(({ model, slot, part, role }) => [model, slot, part, role]),
  );

export const factsTable = (parts: readonly PartDraft[]): string =>
  csvTable(
    ['part', 'feature', 'value', 'lower', 'upper', 'code', 'source'],
    parts.flatMap((part) =>
      Object.entries(part.facts).map(([feature, fact]) => [part.id, feature, ...cells(fact), part.factSources?.[feature] ?? '']),
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
