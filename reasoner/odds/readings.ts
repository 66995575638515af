import type { PossibleReading } from '../answer/odds.ts';
import type { Fact, Feature } from '../atlas/atlas.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import { normalBelow } from '../fits/normal.ts';
import { markKey } from '../plain/letters.ts';
import type { Seen } from '../sheet/sheet.ts';
import { upTo } from './ascending.ts';

/**
 * What a look at one feature can come to, and how likely each reading is for a part with a given fact. Readings of one feature exclude each other.
 *
 * A *plain* reading, of a part whose fact is known: any of the fact's values alike; a measure lies anywhere within the part's limits and wear
 * alike and is read with a normal error of standard deviation u. A *blind* reading, of a part whose fact is not known, of an unlisted part, or by a slip: any
 * reading the feature has in the atlas alike, and one it does not have.
 */
export interface Readings {
  readonly feature: Feature;
  readonly all: readonly PossibleReading[];
  /** Of marks: the letters each reading is compared by, null for none of a listed part’s; of anything else empty. */
  readonly letters: readonly (string | null)[];
  /** Share of blind readings, one for each of `all`. */
  readonly blind: Float64Array;
  /** For each distinct fact: which readings it can give, and how likely each is. Null: the fact is not known. */
  readonly plain: readonly (Plain | null)[];
}

/** Numbers of readings, ascending, and how likely each is. */
export interface Plain {
  readonly readings: Int32Array;
  readonly shares: Float64Array;
}

/** Standard uncertainty of a reading with the feature's own instrument: good to a = one step either way, rectangular, u = a/√3 (JCGM 100:2008, 4.3.7; a step read to the nearest would be a = half a step). */
export const instrumentUncertainty = ({ resolution = 0 }: Feature): number => {
  if (!(resolution >= 0 && resolution < Number.POSITIVE_INFINITY)) throw new RangeError(`a step is zero or more; found ${resolution}`);
  return resolution / Math.sqrt(3);
};

const kept = new WeakMap<FactTable, Readings>();

/** A feature's readings with its own instrument; they depend on the atlas alone and are made once. @param facts of this feature */
export const readingsOf = (feature: Feature, facts: FactTable): Readings => {
  const known = kept.get(facts);
  if (known) return known;
  const made = readingsMade(feature, facts);
  kept.set(facts, made);
  return made;
};

const readingsMade = (feature: Feature, facts: FactTable): Readings => {
  switch (feature.kind) {
    case 'measure':
      return measureReadings(feature, facts, instrumentUncertainty(feature));
    case 'count':
      return countReadings(feature, facts);
    case 'choice': {
      const options = feature.options?.map(({ id }) => id) ?? [];
      return listReadings(
        feature,
        facts,
        options.map((option) => ({ kind: 'choice', option })),
        false,
        (fact) => (fact.kind === 'choice' ? fact.anyOf.map((option) => options.indexOf(option)).filter((at) => at >= 0) : []),
      );
    }
    case 'presence':
      return listReadings(
        feature,
        facts,
        [
          { kind: 'presence', present: true },
          { kind: 'presence', present: false },
        ],
        false,
        (fact) => (fact.kind === 'presence' ? [fact.present ? 0 : 1] : []),
      );
    case 'mark':
      return markReadings(feature, facts);
  }
};

/** Readings that are a list of values, each alike when blind. `other` adds "something no listed part has". */
const listReadings = (
  feature: Feature,
  facts: FactTable,
  values: readonly Seen[],
  other: boolean,
  of: (fact: Fact) => readonly number[],
): Readings => {
  const all: PossibleReading[] = values.map((seen) => ({ seen, from: 0, to: 0 }));
  if (other) all.push({ seen: null, from: 0, to: 0 });
  return {
    feature,
    all,
    letters: [],
    blind: new Float64Array(all.length).fill(1 / all.length),
    plain: facts.distinct.map((fact) => {
      if (fact.kind === 'not known') return null;
      const readings = Int32Array.from(of(fact)).sort();
      return { readings, shares: new Float64Array(readings.length).fill(1 / readings.length) };
    }),
  };
};

const markReadings = (feature: Feature, facts: FactTable): Readings => {
  const texts = new Map<string, string>();
  for (const fact of facts.distinct)
    if (fact.kind === 'mark') for (const text of fact.anyOf) if (!texts.has(markKey(text))) texts.set(markKey(text), text);
  const keys = [...texts.keys()];
  const values: Seen[] = [{ kind: 'mark', text: null }, ...keys.map((key): Seen => ({ kind: 'mark', text: texts.get(key) as string }))];
  const at = new Map(keys.map((key, i) => [key, i + 1]));
  const readings = listReadings(feature, facts, values, true, (fact) =>
    fact.kind === 'mark' ? [...(fact.blank ? [0] : []), ...new Set(fact.anyOf.map((text) => at.get(markKey(text)) as number))] : [],
  );
  return { ...readings, letters: [null, ...keys, null] };
};

/** Counts: runs of whole numbers no fact tells apart are one reading; numbers no fact covers are "another count", all together worth one number when blind. */
const countReadings = (feature: Feature, facts: FactTable): Readings => {
  const ranges = facts.distinct.map((fact) => (fact.kind === 'count' ? fact : null));
  const known = ranges.filter((range) => range !== null);
  const cuts = [...new Set(known.flatMap(({ from, to }) => [from, to + 1]))].sort((a, b) => a - b);
  const all: PossibleReading[] = [];
  for (let i = 0; i + 1 < cuts.length; i += 1) {
    const [from, to] = [cuts[i] as number, (cuts[i + 1] as number) - 1];
    if (known.some((range) => range.from <= from && to <= range.to)) all.push({ seen: { kind: 'count', from, to }, from, to });
  }
  const numbers = all.reduce((sum, { from, to }) => sum + (to - from + 1), 0);
  all.push({ seen: null, from: 0, to: 0 });
  return {
    feature,
    all,
    letters: [],
    blind: Float64Array.from(all, ({ seen, from, to }) => (seen === null ? 1 : to - from + 1) / (numbers + 1)),
    plain: ranges.map((range) => {
      if (range === null) return null;
      const within = all.flatMap(({ seen, from, to }, reading) => (seen !== null && range.from <= from && to <= range.to ? [reading] : []));
      const shareOf = ({ from, to }: PossibleReading): number => (to - from + 1) / (range.to - range.from + 1);
      return {
        readings: Int32Array.from(within),
        shares: Float64Array.from(within, (reading) => shareOf(all[reading] as PossibleReading)),
      };
    }),
  };
};

/**
 * Of a measure with more sizes than this, neighbouring readings are one as long as the range of both is no wider than `widest` says. That loses at most 0.02 bits of what a look tells: of a range of width w
 * the odds of a size within it, read with a normal error, differ from even ones by a divergence of w²J/(2π²) nats at most (the logarithmic Sobolev inequality of an interval), with J the Fisher information of what any target
 * reads: convex, and of sizes anywhere in limits of width L no more than 1/u² (Stam, Information and Control 2 (1959)) nor than 1.81/(uL), 2∫φ²/Φ of the two ends. So w²J ≤ 1/4, which makes it 0.0127 nats.
 */
export const mostSizesApart = 64;
/** Of such a measure no part reads further than so many uncertainties off its limits: what lies beyond, less than 4e−5 on a side, is of the last reading. */
const furthest = 4;

/** The widest range in which what lies together is one reading: u/2, or √(uL/8) where that is more and no part's limits are narrower than L. */
const widest = (limits: readonly (Limits | null)[], u: number): number => {
  const narrowest = limits.reduce((least, limit) => (limit === null ? least : Math.min(least, limit.greatest - limit.least)), 1e300);
  return Math.max(u / 2, Math.sqrt((u * narrowest) / 8));
};

/** Of cuts along a scale those that part ranges no wider than `width`, where neighbouring ranges together are not; every one where that is nothing. */
const cutsApart = (cuts: readonly number[], width: number): number[] => {
  if (width === 0) return [...cuts];
  const kept: number[] = [];
  for (let i = 0; i < cuts.length; i += 1) {
    const next = cuts[i + 1];
    const last = kept.at(-1);
    // The ranges at the ends have no end.
    if (last === undefined || next === undefined || next - last > width) kept.push(cuts[i] as number);
  }
  return kept;
};

/** Measures: the scale is cut half-way between neighbouring sizes of the atlas; readings between two cuts are one. */
const measureReadings = (feature: Feature, facts: FactTable, u: number): Readings => {
  const limits = facts.distinct.map((fact) => (fact.kind === 'measure' ? limitsOf(feature, fact) : null));
  const centres = [...new Set(limits.flatMap((limit) => (limit === null ? [] : [(limit.least + limit.greatest) / 2])))].sort(
    (a, b) => a - b,
  );
  const many = centres.length > mostSizesApart;
  const cuts = cutsApart(
    centres.slice(1).map((centre, i) => (centre + (centres[i] as number)) / 2),
    many && u > 0 ? widest(limits, u) : 0,
  );
  const all = (centres.length === 0 ? [] : [...cuts, Number.POSITIVE_INFINITY]).map((to, i): PossibleReading => {
    const from = cuts[i - 1] ?? Number.NEGATIVE_INFINITY;
    const middle = (upTo(centres, from) + upTo(centres, to) - 1) >> 1;
    return { seen: { kind: 'measure', value: centres[middle] as number }, from, to };
  });
  // Of a size nobody knows of any part there is one reading, “some size”, and it tells nothing.
  if (all.length === 0) all.push({ seen: null, from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY });
  const span = spanOf(feature, facts, u);
  return {
    feature,
    all,
    letters: [],
    blind: Float64Array.from(all, ({ from, to }) => (Math.min(to, span.greatest) - Math.max(from, span.least)) / span.width),
    plain: limits.map((limit) => {
      if (limit === null) return null;
      const reach = (many ? furthest : 8) * u;
      const first = many ? upTo(cuts, limit.least - reach) : Math.max(0, upTo(cuts, limit.least - reach) - 1);
      const last = upTo(cuts, limit.greatest + reach);
      const readings: number[] = [];
      const shares: number[] = [];
      let from = many ? 0 : below(limit, u, cuts[first - 1] ?? Number.NEGATIVE_INFINITY);
      for (let reading = first; reading <= last; reading += 1) {
        const to = many && reading === last ? 1 : below(limit, u, cuts[reading] ?? Number.POSITIVE_INFINITY);
        if (to > from) {
          readings.push(reading);
          shares.push(to - from);
        }
        from = to;
      }
      return { readings: Int32Array.from(readings), shares: Float64Array.from(shares) };
    }),
  };
};

export interface Limits {
  readonly least: number;
  readonly greatest: number;
}

/** Where a used part's size may lie: its limits, widened by what wear allows. */
export const limitsOf = (feature: Feature, fact: Extract<Fact, { kind: 'measure' }>): Limits => ({
  least: fact.nominal + fact.lower - (feature.wear?.below ?? 0),
  greatest: fact.nominal + fact.upper + (feature.wear?.above ?? 0),
});

/** All sizes of the slot with four uncertainties (at least a hundredth of the size) to spare on either side: where a blind reading may lie. */
export const spanOf = (feature: Feature, facts: FactTable, u: number): Limits & { readonly width: number } => {
  const limits = facts.distinct.flatMap((fact) => (fact.kind === 'measure' ? [limitsOf(feature, fact)] : []));
  if (limits.length === 0) return { least: 0, greatest: 1, width: 1 };
  const low = Math.min(...limits.map(({ least }) => least));
  const high = Math.max(...limits.map(({ greatest }) => greatest));
  const spare = Math.max(4 * u, Math.max(Math.abs(low), Math.abs(high), 1) / 100);
  return { least: low - spare, greatest: high + spare, width: high - low + 2 * spare };
};

/** ∫Φ: zΦ(z) + φ(z); nine deviations off it is z or nothing, to 1e−19. */
const overNormal = (z: number): number => (z > 9 ? z : z < -9 ? 0 : z * normalBelow(z) + Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));

/**
 * Share of readings below `v`: a size anywhere in [least, greatest] alike, read with a normal error of standard deviation u:
 * (u/(b − a))·[G((v − a)/u) − G((v − b)/u)] with G(z) = zΦ(z) + φ(z).
 */
const below = ({ least, greatest }: Limits, u: number, v: number): number => {
  if (v === Number.POSITIVE_INFINITY) return 1;
  if (v === Number.NEGATIVE_INFINITY) return 0;
  if (greatest === least) return u === 0 ? (v > least ? 1 : v === least ? 0.5 : 0) : normalBelow((v - least) / u);
  // Nine deviations from either end an error no longer counts.
  if (u === 0 || v < least - 9 * u || v > greatest + 9 * u || (v > least + 9 * u && v < greatest - 9 * u))
    return Math.min(1, Math.max(0, (v - least) / (greatest - least)));
  return (u / (greatest - least)) * (overNormal((v - least) / u) - overNormal((v - greatest) / u));
};

/** The density of readings at `v` that goes with `below`, per unit of the feature; u is not nothing. */
export const density = ({ least, greatest }: Limits, u: number, v: number): number => {
  if (greatest === least) return Math.exp(-(((v - least) / u) ** 2) / 2) / (u * Math.sqrt(2 * Math.PI));
  const [a, b] = [(v - least) / u, (v - greatest) / u];
  // On the lower side, so that a small share keeps its digits.
  return (a + b > 0 ? normalBelow(-b) - normalBelow(-a) : normalBelow(a) - normalBelow(b)) / (greatest - least);
};
