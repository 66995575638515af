import { LastFew } from '../plain/last-few.ts';

/**
 * What is kept for two things at once, made when first asked for: it goes with whichever of the two goes first. So what is made of two tables of an atlas stands while both do, and a
 * table that stands while another is made anew time after time holds none of those.
 */
export const ofBoth = <A extends object, B extends object, Value>(make: (a: A, b: B) => Value): ((a: A, b: B) => Value) => {
  const kept = new WeakMap<A, WeakMap<B, Value>>();
  return (a, b) => {
    const ofA = kept.get(a) ?? new WeakMap<B, Value>();
    kept.set(a, ofA);
    let value = ofA.get(b);
    if (value === undefined) {
      value = make(a, b);
      ofA.set(b, value);
    }
    return value;
  };
};

/** The last few answers to questions that are lists of things: asked for the very same things, the very same answer. */
export class LastAnswers<Thing, Value> extends LastFew<readonly Thing[], Value> {
  constructor(most: number) {
    super(most, (one, other) => one.length === other.length && one.every((thing, at) => thing === other[at]));
  }
}
