/**
 * A dimension measured on the part in hand. It takes the place of the catalogue's limits: `u` is its standard uncertainty in mm (GUM, JCGM 100:2008),
 * and it is held to lie in [value − 2u, value + 2u] wherever the worst case is asked, as in O2.
 */
export interface Measured {
  readonly kind: 'measured';
  readonly value: number;
  readonly u: number;
}

/** One cause of doubt in a measured size, for `standardUncertainty`. All lengths in mm. */
export type Doubt =
  /** Repeated readings (type A): the standard deviation of their mean, s/√n (JCGM 100:2008, 4.2.3). At least two. */
  | { readonly kind: 'readings'; readonly values: readonly number[] }
  /** The instrument's smallest step: anything within half a step either way is as likely, step/√12 (4.3.7). */
  | { readonly kind: 'step'; readonly step: number }
  /** A stated ± limit with nothing said of what is likelier within: half-width/√3 (4.3.7). */
  | { readonly kind: 'limit'; readonly halfWidth: number }
  /** A certificate's expanded uncertainty with its coverage factor: U/k (4.3.3). */
  | { readonly kind: 'certificate'; readonly expanded: number; readonly k: number }
  /** A standard uncertainty known from elsewhere, and how many mm of size one of its units makes (5.1.3). */
  | { readonly kind: 'standard'; readonly u: number; readonly sensitivity: number };

/** Combined standard uncertainty of independent doubts: the root of the sum of squares (JCGM 100:2008, 5.1.2). @throws RangeError on impossible input, and on none */
export const standardUncertainty = (doubts: readonly Doubt[]): number => {
  if (doubts.length === 0)
    throw new RangeError('an uncertainty needs at least one doubt: of nothing stated it is not known, and never zero');
  return Math.hypot(...doubts.map(one));
};

const one = (doubt: Doubt): number => {
  switch (doubt.kind) {
    case 'readings': {
      const n = doubt.values.length;
      const wrong = doubt.values.find((value) => !Number.isFinite(value));
      if (wrong !== undefined) throw new RangeError(`readings are numbers; found ${wrong}`);
      if (n < 2) throw new RangeError(`a spread needs at least two readings; found ${n}`);
      const mean = doubt.values.reduce((sum, value) => sum + value, 0) / n;
      const squares = doubt.values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      return Math.sqrt(squares / (n - 1) / n);
    }
    case 'step':
      return checked(doubt.step) / Math.sqrt(12);
    case 'limit':
      return checked(doubt.halfWidth) / Math.sqrt(3);
    case 'certificate':
      if (!(doubt.k > 0 && doubt.k < Number.POSITIVE_INFINITY))
        throw new RangeError(`a coverage factor is greater than zero; found ${doubt.k}`);
      return checked(doubt.expanded) / doubt.k;
    case 'standard':
      if (!Number.isFinite(doubt.sensitivity)) throw new RangeError(`a sensitivity is a number; found ${doubt.sensitivity}`);
      return Math.abs(checked(doubt.u) * doubt.sensitivity);
  }
};

const checked = (length: number): number => {
  if (!(length >= 0 && Number.isFinite(length))) throw new RangeError(`an uncertainty is zero or more; found ${length}`);
  return length;
};
