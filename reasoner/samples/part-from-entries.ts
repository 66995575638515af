import type { Fact, Feature, Part } from '../atlas/atlas.ts';
import type { FeatureId, MakerId, ObservationId, PartId, SlotId, SourceId } from '../ids.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { factOfSamples } from './fact-of-samples.ts';
import type { FeatureSamples, Sample } from './sample.ts';
import { statisticsOf } from './statistics.ts';

/** What somebody says of a part that the entries do not. */
export interface PartNamed {
  readonly id: PartId;
  readonly name: string;
  readonly maker: MakerId | null;
  readonly numbers: readonly string[];
  /** The case, as a source. */
  readonly source: SourceId;
}

/** Why an entry makes no fact. */
export type NoFact =
  /** A seller's words are a claim to test, never evidence (O1). */
  | 'told'
  /** A serial number or a year of make is of the one unit and of no part. */
  | 'of the unit'
  /** Two entries that cannot both hold. */
  | 'disagree';

export interface PartFromEntries {
  readonly part: Part;
  readonly without: readonly { readonly entries: readonly ObservationId[]; readonly feature: FeatureId; readonly why: NoFact }[];
}

/** Entries of a slot that were seen or measured, as samples; of features that are the unit's and not the part's none. */
export const samplesIn = (sheet: Pick<Sheet, 'id' | 'observations'>, slot: SlotId, featureOf: FeatureOf): readonly Sample[] =>
  sheet.observations
    .filter((one) => one.slot === slot && whyNone(one, featureOf) === null)
    .map(({ id, feature, value, sure }) => ({
      feature,
      value,
      u: sure.kind === 'measured' ? sure.u : null,
      sheet: sheet.id,
      entry: id,
    }));

export type FeatureOf = (feature: FeatureId) => Pick<Feature, 'says'> | undefined;

const whyNone = ({ feature, sure, value }: Observation, featureOf: FeatureOf): NoFact | null => {
  if (sure.kind === 'told' || (value.kind === 'measure' && sure.kind !== 'measured')) return 'told';
  const says = featureOf(feature)?.says;
  return says === 'serial number' || says === 'year of make' ? 'of the unit' : null;
};

/**
 * A part as it was found in one unit: what was seen of it is so; a measure is what was read, from 2u below to 2u above it (O2), and is of this one specimen. What was told makes
 * no fact, and what could not be seen says nothing.
 */
export const partFromEntries = (sheet: Sheet, slot: SlotId, named: PartNamed, featureOf: FeatureOf): PartFromEntries => {
  const { id, name, maker, numbers, source } = named;
  const facts: Record<FeatureId, Fact> = {};
  const without: PartFromEntries['without'][number][] = [];
  const samples = samplesIn(sheet, slot, featureOf);
  for (const one of statisticsOf(samples)) {
    const { fact } = factOfSamples(one);
    if (fact !== null && !saysTwo(one)) facts[one.feature] = fact;
    else
      without.push({
        entries: samples.filter(({ feature }) => feature === one.feature).map(({ entry }) => entry),
        feature: one.feature,
        why: 'disagree',
      });
  }
  for (const entry of sheet.observations) {
    const why = entry.slot === slot ? whyNone(entry, featureOf) : null;
    if (why !== null) without.push({ entries: [entry.id], feature: entry.feature, why });
  }
  return { part: { id, slot, name, maker, numbers, facts, source }, without };
};

/** Many parts may be found with one option or another. Of the one in the hand two options, or two texts, are two readings, and one of them is wrong. */
const saysTwo = (samples: FeatureSamples): boolean =>
  samples.kind === 'seen' &&
  samples.tallies.length > 1 &&
  samples.tallies.some(({ value }) => value.kind === 'choice' || value.kind === 'mark');
