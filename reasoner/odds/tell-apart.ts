import { agrees } from '../atlas/agree.ts';
import type { Fact, Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { Observation, Seen } from '../sheet/sheet.ts';
import { nobodys } from './check-effects.ts';
import { instrumentUncertainty, limitsOf, readingsOf } from './readings.ts';

/** What the checks of one slot not made yet could tell of its parts. */
export interface Telling {
  readonly features: readonly Feature[];
  /** Whether some reading that could be of the one part could not be of the other. */
  readonly apart: (part: number, other: number) => boolean;
  /** The reading of a part on a feature that leaves fewest of the others; null where every reading of it leaves them all. */
  readonly sharpest: (feature: Feature, part: number, others: readonly number[]) => Observation | null;
  /** Readings on a feature some of these parts can give, with what of them they leave. */
  readonly readings: (feature: Feature, parts: readonly number[]) => readonly { observation: Observation; leaves: readonly number[] }[];
}

export const tellingOf = (slot: CompiledSlot, features: readonly Feature[]): Telling => {
  const looks = features.map((feature) => lookAt(slot, feature));
  return {
    features,
    apart: (part, other) => looks.some((look) => look.apart(part, other)),
    sharpest: (feature, part, others) => looks[features.indexOf(feature)]?.sharpest(part, others) ?? null,
    readings: (feature, parts) => looks[features.indexOf(feature)]?.readings(parts) ?? [],
  };
};

const lookAt = (slot: CompiledSlot, feature: Feature) => {
  const { distinct, of } = slot.factsOf(feature.id);
  const givenBy = distinct.map(() => null as readonly Observation[] | null);
  const given = (fact: number): readonly Observation[] => {
    const made = givenBy[fact] ?? valuesOf(slot, feature, distinct[fact] as Fact).map((value) => entered(slot, feature, value));
    givenBy[fact] = made;
    return made;
  };
  const excludes = (observation: Observation, fact: number): boolean => agrees(feature, distinct[fact] as Fact, observation) === 'fails';
  const known = new Map<number, boolean>();
  return {
    apart: (part: number, other: number): boolean => {
      const [fact, otherFact] = [of[part] as number, of[other] as number];
      if (fact === otherFact) return false;
      const key = fact * distinct.length + otherFact;
      const before = known.get(key) ?? given(fact).some((observation) => excludes(observation, otherFact));
      known.set(key, before);
      return before;
    },
    sharpest: (part: number, others: readonly number[]): Observation | null => {
      let [best, most] = [null as Observation | null, 0];
      for (const observation of given(of[part] as number)) {
        const out = others.filter((other) => excludes(observation, of[other] as number)).length;
        if (out > most) [best, most] = [observation, out];
      }
      return best;
    },
    readings: (parts: readonly number[]) =>
      [...new Set(parts.map((part) => of[part] as number))]
        .flatMap(given)
        .map((observation) => ({ observation, leaves: parts.filter((part) => !excludes(observation, of[part] as number)) })),
  };
};

/** A reading with the feature's own instrument. */
export const entered = (slot: CompiledSlot, feature: Feature, value: Seen): Observation => ({
  id: `unread-${feature.id}` as Observation['id'],
  slot: slot.data.id,
  feature: feature.id,
  value,
  sure: feature.kind === 'measure' ? { kind: 'measured', u: finest(feature) } : { kind: 'seen' },
});

const finest = (feature: Feature): number => instrumentUncertainty(feature) || 1e-6;

/**
 * Readings a part can give on a feature, enough of them to tell whatever any of its readings does: of a size the smallest and the greatest that agree with it (O2), and the middle;
 * of a part the atlas is silent about, any reading of the feature, and one no listed part has.
 */
const valuesOf = (slot: CompiledSlot, feature: Feature, fact: Fact): readonly Seen[] => {
  switch (fact.kind) {
    case 'count':
      return fact.from === fact.to ? [fact] : [fact.from, fact.to].map((count) => ({ kind: 'count', from: count, to: count }));
    case 'measure': {
      const { least, greatest } = limitsOf(feature, fact);
      const spare = 2 * finest(feature);
      return [least - spare, (least + greatest) / 2, greatest + spare].map((value) => ({ kind: 'measure', value }));
    }
    case 'choice':
      return fact.anyOf.map((option) => ({ kind: 'choice', option }));
    case 'presence':
      return [fact];
    case 'mark':
      return [...fact.anyOf, ...(fact.blank ? [null] : [])].map((text) => ({ kind: 'mark', text }));
    case 'not known':
      return anyValue(slot, feature);
  }
};

const anyValue = (slot: CompiledSlot, feature: Feature): readonly Seen[] => {
  const table = slot.factsOf(feature.id);
  if (feature.kind === 'measure') {
    const ends = table.distinct.flatMap((fact) => (fact.kind === 'measure' ? [limitsOf(feature, fact).greatest] : []));
    return [{ kind: 'measure', value: Math.max(0, ...ends) + 1 + 4 * finest(feature) }];
  }
  return readingsOf(feature, table).all.map(({ seen, from }): Seen => {
    if (seen === null) return nobodys(feature, slot);
    return seen.kind === 'count' ? { kind: 'count', from, to: from } : seen;
  });
};
