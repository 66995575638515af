import type { Fact } from '../atlas/atlas.ts';
import type { FeatureSamples, Specimen, Tally } from './sample.ts';

/** What samples would make of a feature, were they taken as the word for it. */
export type FactOfSamples =
  /** `limits`: the tolerance limits. `readings`: too few for those, so all that was read, each ±2u (O2). `seen`: what was seen of all, or of each. */
  | { readonly fact: Fact; readonly from: 'limits' | 'readings' | 'seen' }
  /** They cannot all be of one part: two numbers of blades, there and not there. */
  | { readonly fact: null; readonly from: 'disagree' };

/** Figures past it are below what any of the shop's instruments tells apart: a ten-thousandth of a millimetre or of a degree. */
const perUnit = 10_000;
const outward = {
  lower: (x: number) => Math.floor(x * perUnit + 1e-6) / perUnit,
  upper: (x: number) => Math.ceil(x * perUnit - 1e-6) / perUnit,
};

/** The fact, and what it rests on. Limits are rounded outwards. */
export const factOfSamples = (samples: FeatureSamples): FactOfSamples => {
  if (samples.kind === 'seen') return factOfTallies(samples.tallies);
  const { limits, mean } = samples.statistics;
  const [least, greatest] = limits === null ? reach(samples.specimens) : [limits.lower, limits.upper];
  const nominal = Math.round(mean * perUnit) / perUnit;
  return {
    fact: { kind: 'measure', nominal, lower: outward.lower(least - nominal), upper: outward.upper(greatest - nominal) },
    from: limits === null ? 'readings' : 'limits',
  };
};

const reach = (specimens: readonly Specimen[]): readonly [number, number] => [
  Math.min(...specimens.map(({ value, u }) => value - 2 * u)),
  Math.max(...specimens.map(({ value, u }) => value + 2 * u)),
];

const disagree: FactOfSamples = { fact: null, from: 'disagree' };

const factOfTallies = (tallies: readonly Tally[]): FactOfSamples => {
  const values = tallies.map(({ value }) => value);
  const counts = values.filter((value) => value.kind === 'count');
  const choices = values.filter((value) => value.kind === 'choice');
  const presences = values.filter((value) => value.kind === 'presence');
  const marks = values.filter((value) => value.kind === 'mark');
  switch (values[0]?.kind) {
    case 'count': {
      // "Ten or eleven" and "ten" are both met by ten.
      const [from, to] = [Math.max(...counts.map((one) => one.from)), Math.min(...counts.map((one) => one.to))];
      return from > to ? disagree : { fact: { kind: 'count', from, to }, from: 'seen' };
    }
    case 'choice':
      return { fact: { kind: 'choice', anyOf: choices.map(({ option }) => option) }, from: 'seen' };
    case 'presence': {
      const [first] = presences;
      return first === undefined || presences.length > 1 ? disagree : { fact: { kind: 'presence', present: first.present }, from: 'seen' };
    }
    case 'mark':
      return {
        fact: {
          kind: 'mark',
          anyOf: marks.flatMap(({ text }) => (text === null ? [] : [text])),
          blank: marks.some(({ text }) => text === null),
        },
        from: 'seen',
      };
    case 'measure':
    case undefined:
      return disagree;
  }
};
