import type { FactDraft, PartDraft } from '../pack/draft.ts';
import type { PartHead } from '../parts/part.ts';

/** What all parts of one maker have in common. */
export interface House {
  readonly maker: string;
  readonly source: string;
  /** The maker's part number for a part of a slot; `issue` counts from 1. */
  readonly number: (slot: string, id: string, issue: number) => string;
}

const letters = 'abcdefgh';

export const headIn =
  (house: House) =>
  (slot: string, id: string, name: string): PartHead => ({
    id,
    name,
    maker: house.maker,
    numbers: [house.number(slot, id, 1)],
    source: house.source,
  });

/**
 * The issues of one drawing, oldest first: each takes the place of the one before and keeps its running number.
 * The first keeps the plain id, later ones end in their letter.
 */
export const issuesIn =
  (house: House) =>
  (
    slot: string,
    id: string,
    name: string,
    count: number,
    make: (head: PartHead, issue: number, letter: string) => PartDraft,
  ): readonly PartDraft[] => {
    const idOf = (issue: number) => (issue === 0 ? id : `${id}-${letters[issue]}`);
    return Array.from({ length: count }, (_, issue) => {
      const head: PartHead = {
        ...headIn(house)(slot, idOf(issue), count === 1 ? name : `${name}, issue ${letters[issue]}`),
        numbers: [house.number(slot, id, issue + 1)],
        ...(issue === 0 ? {} : { supersedes: idOf(issue - 1) }),
      };
      return make(head, issue, letters[issue] ?? '');
    });
  };

/** A part somebody makes without a name, to the pattern of another; the shop knows it from its own measuring book. */
export const unnamedHead = (id: string, name: string, patternOf: string): PartHead => ({
  id,
  name,
  maker: null,
  numbers: [],
  patternOf,
  source: 'saltmarsh-book',
});

const changed = (
  part: PartDraft,
  shorts: readonly string[],
  change: (feature: string, facts: Record<string, FactDraft>) => void,
): PartDraft => {
  const facts: Record<string, FactDraft> = { ...part.facts };
  for (const short of shorts) {
    const feature = `${part.slot}-${short}`;
    if (!(feature in facts)) throw new Error(`${part.id} has no ${feature}`);
    change(feature, facts);
  }
  return { ...part, facts };
};

/** The part with some dimensions nobody has measured: they say "not known". */
export const notMeasured = (part: PartDraft, ...shorts: readonly string[]): PartDraft =>
  changed(part, shorts, (feature, facts) => {
    facts[feature] = { kind: 'not known' };
  });

/** The part with some features the atlas says nothing of. Not for dimensions of mating faces. */
export const silentOn = (part: PartDraft, ...shorts: readonly string[]): PartDraft =>
  changed(part, shorts, (feature, facts) => {
    delete facts[feature];
  });

/** The part with some facts taken from the shop's measuring book, not from its own source. */
export const measuredInTheShop = (part: PartDraft, ...shorts: readonly string[]): PartDraft => ({
  ...part,
  factSources: { ...part.factSources, ...Object.fromEntries(shorts.map((short) => [`${part.slot}-${short}`, 'saltmarsh-book'])) },
});

/** The first of several issues, and those after it. Throws where there is none. */
export const firstAndLater = (issues: readonly PartDraft[]): readonly [PartDraft, readonly PartDraft[]] => {
  const [first, ...later] = issues;
  if (first === undefined) throw new Error('a part needs at least one issue');
  return [first, later];
};
