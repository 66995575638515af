import type { Fact, FeatureId, Part } from '../../../reasoner/index.ts';
import { groupBy } from '../../plain/group-by.ts';
import { type Warning, warning } from '../warnings.ts';
import type { Finding, Ground } from './ground.ts';
import { fewNames } from './ground.ts';
import { decimal } from './sizes.ts';

/** So many different selections of known features are held against each other; what is beyond is only looked for among parts of the same selection. */
const mostSelections = 40;

/**
 * Parts of a slot that no look and no measure can tell apart: whatever is known of two of them is the same. Parts of which nothing is known at all are said once
 * for their slot. Those of one line of supersession need not be told apart: the later may sit wherever the earlier may.
 */
function* find(ground: Ground): Generator<Warning> {
  const { own, parts, isOwn } = ground;
  const slots = new Set(own.map(({ slot }) => slot));
  const inSlot = groupBy(
    parts.filter(({ slot }) => slots.has(slot)),
    ({ slot }) => slot,
  );
  for (const [slot, all] of inSlot) {
    const known = new Map<Part, ReadonlyMap<FeatureId, string>>(all.map((part) => [part, factsOf(part)]));
    const silent = all.filter((part) => known.get(part)?.size === 0 && isOwn(part));
    if (silent.length > 0 && all.length > 1) {
      yield warning(
        ground.at.part((silent[0] as Part).id, 'id'),
        `nothing is known of ${silent.length === 1 ? 'the part' : `${silent.length} parts`} ${fewNames(silent.map(({ name }) => name))}`,
        `No look and no measure tells ${silent.length === 1 ? 'it' : 'them'} from any other ${ground.slotName(slot)}, so ${silent.length === 1 ? 'it is' : 'they are'} left over wherever ${silent.length === 1 ? 'it' : 'they'} may sit.`,
      );
    }
    const spoken = all.filter((part) => (known.get(part)?.size ?? 0) > 0);
    yield* groupsOf(ground, spoken, (part) => known.get(part) as ReadonlyMap<FeatureId, string>);
  }
}

function* groupsOf(ground: Ground, parts: readonly Part[], knownOf: (part: Part) => ReadonlyMap<FeatureId, string>): Generator<Warning> {
  // Features in one order, so that what is the same reads the same.
  const selectionOf = (part: Part): string => JSON.stringify([...knownOf(part).keys()]);
  const selections = [...groupBy(parts, selectionOf)].map(([key, of]) => ({ features: JSON.parse(key) as FeatureId[], of }));
  const selected = new Map(selections.flatMap(({ of }, n) => of.map((part) => [part, n] as const)));
  const groups: Alike[] = [];
  for (const [n, one] of selections.entries()) {
    const others = selections.length > mostSelections ? [one] : selections.slice(n);
    for (const other of others) {
      const shared = other === one ? one.features : one.features.filter((feature) => other.features.includes(feature));
      // With nothing known of both, nothing is known to be the same either.
      if (shared.length === 0) continue;
      const by = groupBy(other === one ? one.of : [...one.of, ...other.of], (part) =>
        JSON.stringify(shared.map((id) => knownOf(part).get(id))),
      );
      for (const parts of by.values()) {
        if (other !== one && parts.every((part) => selected.get(part) === selected.get(parts[0] as Part))) continue;
        if (!parts.some(ground.isOwn) || new Set(parts.map(ground.lineOf)).size < 2) continue;
        groups.push({ parts: new Set(parts), whole: other === one });
      }
    }
  }
  for (const { parts, whole } of largestOf(groups)) {
    const alike = [...parts];
    const own = alike.find(ground.isOwn) as Part;
    yield warning(
      ground.at.part(own.id, 'id'),
      `nothing tells ${alike.length} parts for the ${ground.slotName(own.slot)} apart: ${fewNames(alike.map(({ name }) => name))}`,
      whole
        ? 'All that is known of one is known of the others, so no look and no measure says which it is.'
        : 'What is known of both is the same, and the rest is known of one alone, so no look and no measure says which it is.',
    );
  }
}

interface Alike {
  readonly parts: ReadonlySet<Part>;
  /** Whether the same is known of all of them. */
  readonly whole: boolean;
}

/** Those that are in no other; of two that are the same the first. */
const largestOf = (groups: readonly Alike[]): readonly Alike[] => {
  const bySize = [...groups].sort((a, b) => b.parts.size - a.parts.size);
  const taken = new Map<Part, Alike[]>();
  return bySize.filter((group) => {
    const [any] = group.parts;
    if ((taken.get(any as Part) ?? []).some(({ parts }) => [...group.parts].every((part) => parts.has(part)))) return false;
    for (const part of group.parts) taken.set(part, [...(taken.get(part) ?? []), group]);
    return true;
  });
};

const factsOf = ({ facts }: Part): ReadonlyMap<FeatureId, string> =>
  new Map(
    (Object.keys(facts) as FeatureId[])
      .filter((id) => facts[id]?.kind !== 'not known')
      .sort()
      .map((id) => {
        return [id, keyOf(facts[id] as Fact)];
      }),
  );

/** What is the same of facts no reading tells apart: how limits are written, and the code they were expanded from, are no part of a size. */
const keyOf = (fact: Fact): string => {
  switch (fact.kind) {
    case 'measure':
      return `${decimal(fact.nominal + fact.lower)} ${decimal(fact.nominal + fact.upper)}`;
    case 'count':
      return `${fact.from} ${fact.to}`;
    case 'presence':
      return String(fact.present);
    case 'choice':
      return JSON.stringify([...fact.anyOf].sort());
    case 'mark':
      return JSON.stringify([[...fact.anyOf].sort(), fact.blank]);
    case 'not known':
      return '';
  }
};

export const alikeParts: Finding = {
  about: 'alike parts',
  rests: ['parts.csv', 'facts.csv', 'features.json', 'slots.json'],
  find,
};
