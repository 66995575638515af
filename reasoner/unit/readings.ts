import { agrees } from '../atlas/agree.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { FoundTable } from '../compile/as-found.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { keptFor } from '../plain/kept-for.ts';
import { LastFew } from '../plain/last-few.ts';
import type { Observation } from '../sheet/sheet.ts';

/** An observation that is evidence, by its label. */
export interface Held {
  readonly label: number;
  readonly observation: Observation;
}

/** What was read of one feature of a slot, held against every way it may be found (O2). */
export interface FeatureReadings {
  readonly feature: Feature;
  readonly table: FoundTable;
  readonly labels: readonly number[];
  /** By reading, then by place in the table: whether it agrees with the feature as made (place 0) and with what each operation could have left. */
  readonly agree: readonly (readonly (readonly boolean[])[])[];
  /** Whether some reading tells of some part that it was machined there, or that it was not. */
  readonly tellsOfWork: boolean;
}

/** Of what is found as it is made or not at all. */
const onlyHolds: readonly boolean[] = [true];
const onlyFails: readonly boolean[] = [false];

/** @throws when an observation is of no feature of the slot: the door should have refused it */
export const readingsOf = (atlas: CompiledAtlas, slot: CompiledSlot, held: readonly Held[]): FeatureReadings[] => {
  const byFeature = new Map<string, Held[]>();
  for (const each of held) {
    const known = byFeature.get(each.observation.feature);
    if (known) known.push(each);
    else byFeature.set(each.observation.feature, [each]);
  }
  return [...byFeature.values()].map((own) => {
    const [{ observation: first }] = own as [Held];
    const feature = atlas.features.get(first.feature);
    if (!feature || feature.slot !== slot.data.id)
      throw new Error(`observation ${first.id} is of ${first.feature}, no feature of ${slot.data.id}`);
    const table = slot.foundOf(feature.id);
    return lastReadOf(table).of({ feature, read: textOf(own) }, () => readAs(feature, table, own));
  });
};

const readAs = (feature: Feature, table: FoundTable, own: readonly Held[]): FeatureReadings => {
  const agree = own.map(({ observation }) =>
    table.distinct.map(({ made, left }): readonly boolean[] => {
      const asMade = agrees(feature, made, observation) !== 'fails';
      if (left.length === 0) return asMade ? onlyHolds : onlyFails;
      return [asMade, ...left.map(({ fact }) => agrees(feature, fact, observation) !== 'fails')];
    }),
  );
  const tellsOfWork = table.worked && agree.some((entries) => entries.some((ways) => ways.includes(true) && ways.includes(false)));
  return { feature, table, labels: own.map(({ label }) => label), agree, tellsOfWork };
};

/** The readings no way of finding this part agrees with, in each of which alone it is ruled out. */
export const violatedBy = ({ labels, agree }: FeatureReadings, entry: number): readonly number[] =>
  labels.filter((_, i) => agree[i]?.[entry]?.includes(true) !== true);

/** By way of finding the part, the readings that exclude it; those that exclude every way are left out, for they speak of the part and not of the way. */
export const excludersOf = (readings: FeatureReadings, entry: number): readonly (readonly number[])[] => {
  const violated = violatedBy(readings, entry);
  const ways = readings.agree[0]?.[entry]?.length ?? 0;
  return Array.from({ length: ways }, (_, way) =>
    readings.labels.filter((label, i) => readings.agree[i]?.[entry]?.[way] === false && !violated.includes(label)),
  );
};

/**
 * The smallest sets of labels that meet every one of these sets; none where one of them is empty. There are as many sets as ways a part may be found,
 * two or three.
 */
export const smallestMeeting = (sets: readonly (readonly number[])[]): readonly (readonly number[])[] => {
  let answer: readonly (readonly number[])[] = [[]];
  for (const set of sets) {
    const next = answer.flatMap((each) =>
      each.some((label) => set.includes(label)) ? [each] : set.map((label) => [...each, label].sort((a, b) => a - b)),
    );
    const unlike = [...new Map(next.map((each) => [each.join(), each])).values()];
    answer = unlike.filter((each) => !unlike.some((other) => other !== each && other.every((label) => each.includes(label))));
  }
  return answer;
};

/** So many ways a slot was read are kept: as it stands, as it was before the last entry, and as it would be with what is being typed. */
const mostKept = 4;

/** What was read of a feature stays as it is while something else is read of its slot. */
const lastReadOf = keptFor(
  (_: FoundTable) => new LastFew<ReadOf, FeatureReadings>(mostKept, (a, b) => a.feature === b.feature && a.read === b.read),
);

interface ReadOf {
  readonly feature: Feature;
  readonly read: string;
}

const textOf = (held: readonly Held[]): string =>
  JSON.stringify(held.map(({ label, observation: { feature, value, sure } }) => [label, feature, value, sure]));

const lastOf = keptFor(
  (_: CompiledSlot) => new LastFew<Asked, readonly FeatureReadings[]>(mostKept, (a, b) => a.features === b.features && a.read === b.read),
);

/** Of most slots nothing was read. */
const nothingReadOf = keptFor((_: CompiledSlot): readonly FeatureReadings[] => []);

interface Asked {
  readonly features: CompiledAtlas['features'];
  readonly read: string;
}

/** The same, remembered for the last few ways a slot was read: most entries of a sheet are as they were when it was judged before. @throws as `readingsOf` */
export const keptReadings = (atlas: CompiledAtlas, slot: CompiledSlot, held: readonly Held[]): readonly FeatureReadings[] =>
  held.length === 0
    ? nothingReadOf(slot)
    : lastOf(slot).of({ features: atlas.features, read: textOf(held) }, () => readingsOf(atlas, slot, held));
