import type { Looks, Runs } from './looks.ts';

/** What the parts of a slot read, each as often as it weighs: the same for all sheets whose entries of the slot are these. */
export interface Spread {
  /** By run of parts that read alike: what they weigh together. */
  readonly weights: Float64Array;
  /** By reading: the weight of every run times how often it gives the reading. */
  readonly often: Float64Array;
}

/** Under weights, by what the runs give. */
const kept = new WeakMap<Float64Array, WeakMap<Runs, Spread>>();

/** @param weights by part, the unlisted one last; never changed once asked with @param gives by run @param readings how many there are */
export const spreadOf = (weights: Float64Array, { runOf, runs }: Looks, gives: Runs, readings: number): Spread => {
  const own = kept.get(weights) ?? new WeakMap<Runs, Spread>();
  kept.set(weights, own);
  const known = own.get(gives);
  if (known) return known;
  const made = { weights: new Float64Array(runs), often: new Float64Array(readings) };
  for (let part = 0; part < runOf.length; part += 1) {
    const run = runOf[part] as number;
    made.weights[run] = (made.weights[run] as number) + (weights[part] as number);
  }
  const { from, members, shares } = gives;
  for (let run = 0; run < runs; run += 1) {
    const weight = made.weights[run] as number;
    for (let i = from[run] as number, end = from[run + 1] as number; i < end; i += 1) {
      const reading = members[i] as number;
      made.often[reading] = (made.often[reading] as number) + weight * (shares[i] as number);
    }
  }
  own.set(gives, made);
  return made;
};
