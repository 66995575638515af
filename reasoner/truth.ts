/**
 * The three truth values of every predicate. `not known` is an answer of its own:
 * it is never coerced to `fails`, and no sum of unknowns makes a `holds`.
 */
export type Truth = 'holds' | 'fails' | 'not known';

/** Kleene's strong conjunction: one failure decides, otherwise one unknown leaves it unknown. */
export const every = (values: Iterable<Truth>): Truth => {
  let answer: Truth = 'holds';
  for (const value of values) {
    if (value === 'fails') return 'fails';
    if (value === 'not known') answer = 'not known';
  }
  return answer;
};

/** Kleene's strong disjunction. */
export const some = (values: Iterable<Truth>): Truth => {
  let answer: Truth = 'fails';
  for (const value of values) {
    if (value === 'holds') return 'holds';
    if (value === 'not known') answer = 'not known';
  }
  return answer;
};
