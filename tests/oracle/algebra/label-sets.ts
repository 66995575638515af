/**
 * Sets of labels and antichains of them: families in which no set contains another.
 *
 * An antichain stands for a monotone statement "one of these sets, wholly". Read so, `either` is *or* and `both` is *and*,
 * each followed by absorption (a set that contains another adds nothing), which makes the antichains over one label
 * alphabet a bounded distributive lattice. Minimal conflicts and minimal swap sets are the same computation in this
 * lattice and in its dual.
 *
 * Equal families are one number, so that a family met a thousand times is combined once: the tables of slots and joints
 * repeat the same few families over and over.
 */
export type Family = number & { readonly family: true };

export interface LabelSets {
  /** The family without sets: cannot be had at all. Neutral for `either`, absorbing for `both`. */
  readonly none: Family;
  /** The family of the empty set alone: had for nothing. Neutral for `both`, absorbing for `either`. */
  readonly free: Family;
  /** The family of one set with these labels. */
  readonly of: (labels: readonly number[]) => Family;
  readonly either: (a: Family, b: Family) => Family;
  readonly both: (a: Family, b: Family) => Family;
  /** The sets as sorted label lists, smallest first, then by their labels. */
  readonly list: (a: Family) => number[][];
  /** Whether sets were left out because they had more labels than `largest`. What is left is exact up to that size. */
  readonly leftOut: () => boolean;
}

/**
 * The lattice over labels 0 … labelCount − 1.
 * @param largest sets with more labels are left out; since sets only ever grow, none of the smaller ones depends on them
 * @param known sets already known to belong to the answer: whatever contains one would be absorbed in the end and is dropped at once
 */
export const labelSets = (
  labelCount: number,
  largest = Number.POSITIVE_INFINITY,
  known: readonly (readonly number[])[] = [],
): LabelSets => {
  const width = Math.max(1, Math.ceil(labelCount / 32));
  const wordsOf = (labels: readonly number[]): number[] => {
    const words = new Array<number>(width).fill(0);
    for (const label of labels) words[label >>> 5] = (words[label >>> 5] as number) | (1 << (label & 31));
    return words;
  };
  const settled = known.map(wordsOf);
  const families: number[][] = [];
  const numbers = new Map<string, Family>();
  const eithers: Family[][] = [];
  const boths: Family[][] = [];
  let leftOut = false;

  /** The number of a family given as flat words, `width` to a set, already an antichain. */
  const intern = (words: number[]): Family => {
    const sorted = inOrder(words, width);
    const key = sorted.join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    const number = (families.push(sorted) - 1) as Family;
    numbers.set(key, number);
    return number;
  };

  const none = intern([]);
  const free = intern(new Array<number>(width).fill(0));

  const remembered = (memo: Family[][], a: Family, b: Family, combine: () => Family): Family => {
    const [low, high] = a < b ? [a, b] : [b, a];
    let row = memo[low];
    if (row === undefined) {
      row = [];
      memo[low] = row;
    }
    const known = row[high];
    if (known !== undefined) return known;
    const made = combine();
    row[high] = made;
    return made;
  };

  const either = (a: Family, b: Family): Family => {
    if (a === b || b === none) return a;
    if (a === none) return b;
    if (a === free || b === free) return free;
    return remembered(eithers, a, b, () => {
      const union = [...(families[a] as number[])];
      const other = families[b] as number[];
      for (let i = 0; i < other.length; i += width) add(union, other, i, width);
      return intern(union);
    });
  };

  const scratch = new Array<number>(width).fill(0);
  const both = (a: Family, b: Family): Family => {
    if (a === b || b === free) return a;
    if (a === free) return b;
    if (a === none || b === none) return none;
    return remembered(boths, a, b, () => {
      // Where one already says more than the other, that one is the answer.
      const whole = either(a, b);
      if (whole === a) return b;
      if (whole === b) return a;
      // Sets that already contain one of the other family stay as they are; only the rest is multiplied.
      const [one, other] = [families[a] as number[], families[b] as number[]];
      const product: number[] = [];
      const [oneRest, otherRest] = [setAside(one, other, product, width), setAside(other, one, product, width)];
      return intern(multiplied(oneRest, otherRest, product));
    });
  };

  /** Adds the unions of every two sets to the product, in place, but for those that are settled or too large. */
  const multiplied = (one: readonly number[], other: readonly number[], product: number[]): number[] => {
    for (let i = 0; i < one.length; i += width) {
      for (let j = 0; j < other.length; j += width) {
        let size = 0;
        for (let w = 0; w < width; w += 1) {
          scratch[w] = (one[i + w] as number) | (other[j + w] as number);
          size += bitCount(scratch[w] as number);
        }
        if (settled.some((words) => words.every((word, w) => (word & (scratch[w] as number)) === word))) continue;
        if (size > largest) leftOut = true;
        else add(product, scratch, 0, width);
      }
    }
    return product;
  };

  const of = (labels: readonly number[]): Family => {
    if (labels.length > largest) {
      leftOut = true;
      return none;
    }
    const words = wordsOf(labels);
    return settled.some((set) => set.every((word, w) => (word & (words[w] as number)) === word)) ? none : intern(words);
  };

  const list = (family: Family): number[][] => {
    const words = families[family] as number[];
    const sets: number[][] = [];
    for (let i = 0; i < words.length; i += width) {
      const set: number[] = [];
      for (let label = 0; label < labelCount; label += 1) {
        if (((words[i + (label >>> 5)] as number) >>> (label & 31)) & 1) set.push(label);
      }
      sets.push(set);
    }
    return sets.sort(bySizeThenLabels);
  };

  return { none, free, of, either, both, list, leftOut: () => leftOut };
};

/** Fewer labels first, then the smaller first label that differs. */
export const bySizeThenLabels = (a: readonly number[], b: readonly number[]): number => {
  const at = a.findIndex((label, i) => label !== b[i]);
  return a.length - b.length || (at < 0 ? 0 : (a[at] as number) - (b[at] as number));
};

/** Adds the set at `words[at…]` to a growing antichain, in place. */
const add = (family: number[], words: readonly number[], at: number, width: number): void => {
  let kept = 0;
  for (let i = 0; i < family.length; i += width) {
    let oldInNew = true;
    let newInOld = true;
    for (let w = 0; w < width; w += 1) {
      const old = family[i + w] as number;
      const fresh = words[at + w] as number;
      const common = old & fresh;
      if (common !== old) oldInNew = false;
      if (common !== fresh) newInOld = false;
    }
    if (oldInNew) return; // absorbed; nothing was dropped before, or `family` was no antichain
    if (!newInOld) {
      if (kept !== i) for (let w = 0; w < width; w += 1) family[kept + w] = family[i + w] as number;
      kept += width;
    }
  }
  family.length = kept;
  for (let w = 0; w < width; w += 1) family.push(words[at + w] as number);
};

/** Adds to `product` the sets of `family` that contain one of `other`, and gives back the rest. */
const setAside = (family: readonly number[], other: readonly number[], product: number[], width: number): number[] => {
  const rest: number[] = [];
  for (let i = 0; i < family.length; i += width) {
    if (containsOne(family, i, other, width)) add(product, family, i, width);
    else for (let w = 0; w < width; w += 1) rest.push(family[i + w] as number);
  }
  return rest;
};

const containsOne = (family: readonly number[], at: number, other: readonly number[], width: number): boolean => {
  for (let j = 0; j < other.length; j += width) {
    let inside = true;
    for (let w = 0; w < width && inside; w += 1) inside = ((other[j + w] as number) & ~(family[at + w] as number)) === 0;
    if (inside) return true;
  }
  return false;
};

/** The same sets in one canonical order. */
const inOrder = (words: number[], width: number): number[] => {
  if (width === 1) return words.length < 2 ? words : [...words].sort((a, b) => a - b);
  if (words.length <= width) return words;
  const starts = Array.from({ length: words.length / width }, (_, i) => i * width);
  starts.sort((a, b) => {
    for (let w = 0; w < width; w += 1) {
      const difference = (words[a + w] as number) - (words[b + w] as number);
      if (difference !== 0) return difference;
    }
    return 0;
  });
  return starts.flatMap((start) => words.slice(start, start + width));
};

const bitCount = (word: number): number => {
  let bits = word - ((word >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return (((bits + (bits >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
};
