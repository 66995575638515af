import type { PossibleReading } from '../answer/odds.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import { markKey } from '../plain/letters.ts';
import type { Observation, Seen } from '../sheet/sheet.ts';
import { upTo } from './ascending.ts';
import { density, instrumentUncertainty, limitsOf, type Plain, type Readings, readingsOf, spanOf } from './readings.ts';

/** An entry as the odds weigh it. */
export type Entry = Pick<Observation, 'value' | 'sure'>;

/** What was entered of one feature, held against the facts of its slot. */
export interface Entered {
  /** By distinct fact: how likely all the entries are of a part with it, over how likely they are when each is blind by itself. */
  readonly likelihood: Float64Array;
  /** The same of a part nothing is known of: 1 for a single entry; of several, they go together better than chance would have it. */
  readonly silent: number;
  readonly evidence: Evidence;
}

/** What the entries say of the truth itself, whatever part it is of. */
export type Evidence =
  /** By reading: how likely all entries are of a part that truly reads so, over each being blind by itself. */
  | { readonly kind: 'values'; readonly readings: Readings; readonly likelihoods: Float64Array }
  /** All entries slips: `none`, over the same; some of them true: `sets`. `width` is that of the sizes a blind reading may lie in. */
  | { readonly kind: 'sizes'; readonly sets: readonly TrueOnes[]; readonly none: number; readonly width: number };

/** What a further look would read unless it slips, the entries known: by distinct fact (null: not known), and of a part nothing is known of. One reading may be named more than once. */
export interface ReadAgain {
  /** The readings there are: of counts those of the feature, cut wherever an entry begins or ends. */
  readonly readings: Readings;
  readonly plain: readonly (Plain | null)[];
  readonly silent: Plain;
}

/** Of one size at most so many entries are weighed, the best measured: they are summed over every set of them that may be slips. */
const mostOfOneSize = 8;
/** A size entered without its uncertainty is taken as read to a nanometre, in the feature's unit. */
const leastUncertainty = 1e-6;
/** So small a share of what can be adds nothing to it. */
const rounding = 1e-17;

/** The entries of one feature that are weighed: those that name a value the feature can have, of a size not more than eight. In their order. */
export const weighable = <T extends Entry>(feature: Feature, facts: FactTable, entries: readonly T[]): readonly T[] => {
  if (feature.kind !== 'measure') return entries.filter((entry) => hitsOf(readingsOf(feature, facts), entry.value).includes(1));
  if (entries.length <= mostOfOneSize) return entries;
  const best = new Set([...entries].sort((a, b) => uncertaintyOf(a) - uncertaintyOf(b)).slice(0, mostOfOneSize));
  return entries.filter((entry) => best.has(entry));
};

/**
 * Entries of one feature are readings of one truth: the part's own value is drawn once (for a size: anywhere within limits and wear), and each entry reads it, or slips.
 * @param entries weighable
 */
export const enteredOf = (feature: Feature, facts: FactTable, entries: readonly Entry[], slip: number): Entered =>
  feature.kind === 'measure' ? sizesEntered(feature, facts, entries, slip) : valuesEntered(feature, facts, entries, slip);

/** @param evidence of the entries there are of this feature */
export const readAgain = (feature: Feature, facts: FactTable, evidence: Evidence): ReadAgain =>
  evidence.kind === 'sizes' ? sizesAgain(feature, facts, evidence) : valuesAgain(evidence);

/** The readings with every run of counts cut wherever an entry begins or ends: each is then a value a part can truly have, which an entry names or does not. */
const cutAt = (readings: Readings, entries: readonly Entry[]): Readings => {
  if (readings.feature.kind !== 'count') return readings;
  const cuts = [...new Set(entries.flatMap(({ value }) => (value.kind === 'count' ? [value.from, value.to + 1] : [])))].sort(
    (a, b) => a - b,
  );
  const pieces = readings.all.flatMap((whole, reading) => {
    const { seen, from, to } = whole;
    if (seen?.kind !== 'count') return [{ reading, share: 1, piece: whole }];
    const starts = [from, ...cuts.filter((cut) => cut > from && cut <= to), to + 1];
    return starts.slice(1).map((next, i) => {
      const own = { from: starts[i] as number, to: next - 1 };
      return { reading, share: (next - own.from) / (to - from + 1), piece: { seen: { ...seen, ...own }, ...own } };
    });
  });
  if (pieces.length === readings.all.length) return readings;
  return {
    feature: readings.feature,
    letters: [],
    all: pieces.map(({ piece }) => piece),
    blind: Float64Array.from(pieces, ({ reading, share }) => share * (readings.blind[reading] as number)),
    plain: readings.plain.map((plain) => {
      if (plain === null) return null;
      const shares = new Map(Array.from(plain.readings, (reading, i) => [reading, plain.shares[i] as number]));
      const own = pieces.flatMap(({ reading, share }, at) =>
        shares.has(reading) ? [{ at, share: share * (shares.get(reading) as number) }] : [],
      );
      return { readings: Int32Array.from(own, ({ at }) => at), shares: Float64Array.from(own, ({ share }) => share) };
    }),
  };
};

/** By reading: how likely all entries are of a part that truly reads so, over each being blind by itself. */
const likelihoodsOf = (readings: Readings, entries: readonly Entry[], slip: number): Float64Array => {
  const factors = new Float64Array(readings.all.length).fill(1);
  for (const { value } of entries) {
    const hits = hitsOf(readings, value);
    let blind = 0;
    for (let reading = 0; reading < hits.length; reading += 1) if (hits[reading] === 1) blind += readings.blind[reading] as number;
    for (let reading = 0; reading < hits.length; reading += 1)
      factors[reading] = (factors[reading] as number) * (hits[reading] === 1 ? (1 - slip) / blind + slip : slip);
  }
  return factors;
};

/** Which readings a value is, 1 or 0. A value outside every reading is one no listed part has: the last, where there is such a one. */
const hitsOf = ({ all, letters }: Pick<Readings, 'all' | 'letters'>, value: Seen): Uint8Array => {
  const hits = new Uint8Array(all.length);
  if (value.kind === 'mark') {
    const text = value.text === null ? null : markKey(value.text);
    letters.forEach((own, at) => {
      if (text === null ? all[at]?.seen?.kind === 'mark' && own === null : own === text) hits[at] = 1;
    });
  } else
    all.forEach((reading, at) => {
      if (names(value, reading)) hits[at] = 1;
    });
  if (!hits.includes(1) && all.at(-1)?.seen === null) hits[hits.length - 1] = 1;
  return hits;
};

const names = (value: Seen, { seen, from, to }: PossibleReading): boolean => {
  if (seen === null || seen.kind !== value.kind) return false;
  switch (value.kind) {
    case 'count':
      return value.from <= to && from <= value.to;
    case 'choice':
      return seen.kind === 'choice' && seen.option === value.option;
    case 'presence':
      return seen.kind === 'presence' && seen.present === value.present;
    case 'mark':
    case 'measure':
      return false;
  }
};

const valuesEntered = (feature: Feature, facts: FactTable, entries: readonly Entry[], slip: number): Entered => {
  const readings = cutAt(readingsOf(feature, facts), entries);
  const likelihoods = likelihoodsOf(readings, entries, slip);
  let silent = 0;
  for (let reading = 0; reading < likelihoods.length; reading += 1)
    silent += (readings.blind[reading] as number) * (likelihoods[reading] as number);
  const likelihood = new Float64Array(readings.plain.length);
  readings.plain.forEach((plain, fact) => {
    likelihood[fact] = plain === null ? silent : among(plain, likelihoods);
  });
  return { likelihood, silent, evidence: { kind: 'values', readings, likelihoods } };
};

const among = ({ readings, shares }: Plain, likelihoods: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < shares.length; i += 1) sum += (shares[i] as number) * (likelihoods[readings[i] as number] as number);
  return sum;
};

const valuesAgain = ({ readings, likelihoods }: Extract<Evidence, { kind: 'values' }>): ReadAgain => {
  const again = ({ readings: own, shares }: Plain): Plain => {
    const weights = new Float64Array(own.length);
    for (let i = 0; i < own.length; i += 1) weights[i] = (shares[i] as number) * (likelihoods[own[i] as number] as number);
    return shared(own, weights);
  };
  return {
    readings,
    plain: readings.plain.map((plain) => (plain === null ? null : again(plain))),
    silent: again({ readings: Int32Array.from(readings.all.keys()), shares: readings.blind }),
  };
};

const shared = (readings: Int32Array, weights: Float64Array): Plain => {
  let sum = 0;
  for (let i = 0; i < weights.length; i += 1) sum += weights[i] as number;
  if (sum > 0) for (let i = 0; i < weights.length; i += 1) weights[i] = (weights[i] as number) / sum;
  return { readings, shares: weights };
};

const uncertaintyOf = ({ sure }: Entry): number => Math.max(sure.kind === 'measured' ? sure.u : 0, leastUncertainty);

/** Some entries of a size taken for true readings, the others for slips. */
interface TrueOnes {
  /** Density of these entries together, times (1 − slip) or slip for each, over each being blind by itself: still times the density of the truth at `mean`, blurred by `u`. */
  readonly weight: number;
  readonly mean: number;
  readonly u: number;
}

/**
 * Every set of entries that may be the true ones but the empty one. A product of normal densities in the truth is one normal density, with
 * 1/u² = Σ 1/uᵢ² and mean = u²·Σ xᵢ/uᵢ², times Π φ(xᵢ; mean, uᵢ)·u·√(2π).
 */
const trueOnesOf = (entries: readonly Entry[], width: number, slip: number): TrueOnes[] =>
  Array.from({ length: 2 ** entries.length - 1 }, (_, i) => {
    const chosen = entries.flatMap((entry, at) =>
      ((i + 1) >> at) % 2 === 1 && entry.value.kind === 'measure' ? [{ x: entry.value.value, u: uncertaintyOf(entry) }] : [],
    );
    const precision = chosen.reduce((sum, { u }) => sum + u ** -2, 0);
    const mean = chosen.reduce((sum, { x, u }) => sum + x / u ** 2, 0) / precision;
    const u = precision ** -0.5;
    const off = chosen.reduce((sum, each) => sum + ((each.x - mean) / each.u) ** 2, 0);
    const scale = chosen.reduce((product, each) => product / (each.u * Math.sqrt(2 * Math.PI)), u * Math.sqrt(2 * Math.PI));
    const weight = (1 - slip) ** chosen.length * slip ** (entries.length - chosen.length) * width ** chosen.length;
    return { weight: weight * scale * Math.exp(-off / 2), mean, u };
  });

const sizesEntered = (feature: Feature, facts: FactTable, entries: readonly Entry[], slip: number): Entered => {
  const { width } = spanOf(feature, facts, instrumentUncertainty(feature));
  const sets = trueOnesOf(entries, width, slip);
  const none = slip ** entries.length;
  const silent = sets.reduce((sum, { weight }) => sum + weight / width, none);
  const likelihood = new Float64Array(facts.distinct.length);
  facts.distinct.forEach((fact, at) => {
    let sum = none;
    if (fact.kind === 'measure') {
      const limits = limitsOf(feature, fact);
      for (const { weight, mean, u } of sets) sum += weight * density(limits, u, mean);
    } else sum = silent;
    likelihood[at] = sum;
  });
  return { likelihood, silent, evidence: { kind: 'sizes', sets, none, width } };
};

/** Two true readings of one size are taken to read the same: another look tells of slips, and does not make the instrument any finer. */
const sizesAgain = (feature: Feature, facts: FactTable, { sets, none, width }: Extract<Evidence, { kind: 'sizes' }>): ReadAgain => {
  const readings = readingsOf(feature, facts);
  const starts = readings.all.slice(1).map(({ from }) => from);
  const means = sets.map(({ mean }) => upTo(starts, mean));
  /** Fresh readings, where all entries slipped; and one for each set of true ones, the same again now and then. */
  const again = (fresh: Plain, densityOf: (mean: number, u: number) => number): Plain => {
    const count = fresh.readings.length;
    const same = sets.map(({ weight, mean, u }) => weight * densityOf(mean, u));
    // Of nearly every part of a large atlas all entries are slips.
    if (same.every((each) => each < rounding * none)) return fresh;
    const own = new Int32Array(count + sets.length);
    const weights = new Float64Array(count + sets.length);
    own.set(fresh.readings);
    own.set(means, count);
    for (let i = 0; i < count; i += 1) weights[i] = none * (fresh.shares[i] as number);
    weights.set(same, count);
    return shared(own, weights);
  };
  return {
    readings,
    plain: facts.distinct.map((fact, i) => {
      const fresh = readings.plain[i];
      if (fact.kind !== 'measure' || !fresh) return null;
      const limits = limitsOf(feature, fact);
      return again(fresh, (mean, u) => density(limits, u, mean));
    }),
    silent: again({ readings: Int32Array.from(readings.all.keys()), shares: readings.blind }, () => 1 / width),
  };
};
