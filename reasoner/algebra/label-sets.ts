/**
 * Sets of labels and antichains of them: families in which no set contains another.
 *
 * An antichain stands for a monotone statement "one of these sets, wholly". Read so, `either` is *or* and `both` is *and*,
 * each followed by absorption (a set that contains another adds nothing), which makes the antichains over one label
 * alphabet a bounded distributive lattice. Minimal conflicts and minimal swap sets are the same computation in this
 * lattice and in its dual.
 *
 * An antichain is a flat array of 32-bit words, `width` words to a set.
 */
export type Antichain = readonly number[];

export interface LabelSets {
  readonly width: number;
  /** The family without sets: cannot be had at all. Neutral for `either`, absorbing for `both`. */
  readonly none: Antichain;
  /** The family of the empty set alone: had for nothing. Neutral for `both`, absorbing for `either`. */
  readonly free: Antichain;
  /** The family of one set with these labels. */
  readonly of: (labels: readonly number[]) => Antichain;
  readonly either: (a: Antichain, b: Antichain) => Antichain;
  readonly both: (a: Antichain, b: Antichain) => Antichain;
  /** The sets as sorted label lists, smallest first, then by their labels. */
  readonly list: (a: Antichain) => number[][];
  /** Whether some family grew past the cap and was cut to its smallest sets; answers are then sound but not complete. */
  readonly wasCut: () => boolean;
}

const bitCount = (word: number): number => {
  let bits = word - ((word >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return (((bits + (bits >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
};

/**
 * The lattice over labels 0 … labelCount − 1.
 * @param cap how many sets a family may hold before it is cut; guards against explosion, never reached in ordinary use
 */
export const labelSets = (labelCount: number, cap = 5000): LabelSets => {
  const width = Math.max(1, Math.ceil(labelCount / 32));
  const none: Antichain = [];
  const free: Antichain = new Array<number>(width).fill(0);
  let cut = false;

  const isFree = (family: Antichain): boolean => {
    if (family.length !== width) return false;
    for (let w = 0; w < width; w += 1) if (family[w] !== 0) return false;
    return true;
  };

  /** Adds one set to a growing family, keeping it an antichain. `family` is ours to change. */
  const add = (family: number[], words: readonly number[], at: number): void => {
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

  const sizeAt = (family: Antichain, at: number): number => {
    let size = 0;
    for (let w = 0; w < width; w += 1) size += bitCount(family[at + w] as number);
    return size;
  };

  const guard = (family: number[]): number[] => {
    if (family.length <= cap * width) return family;
    cut = true;
    const starts: number[] = [];
    for (let i = 0; i < family.length; i += width) starts.push(i);
    starts.sort((x, y) => sizeAt(family, x) - sizeAt(family, y) || x - y);
    return starts.slice(0, cap).flatMap((start) => family.slice(start, start + width));
  };

  const either = (a: Antichain, b: Antichain): Antichain => {
    if (a.length === 0 || isFree(b)) return b;
    if (b.length === 0 || isFree(a)) return a;
    const family = [...a];
    for (let i = 0; i < b.length; i += width) add(family, b, i);
    return guard(family);
  };

  const scratch = new Array<number>(width).fill(0);
  const both = (a: Antichain, b: Antichain): Antichain => {
    if (a.length === 0 || isFree(b)) return a;
    if (b.length === 0 || isFree(a)) return b;
    const family: number[] = [];
    for (let i = 0; i < a.length; i += width) {
      for (let j = 0; j < b.length; j += width) {
        for (let w = 0; w < width; w += 1) scratch[w] = (a[i + w] as number) | (b[j + w] as number);
        add(family, scratch, 0);
      }
      if (family.length > 2 * cap * width) family.splice(0, family.length, ...guard(family));
    }
    return guard(family);
  };

  const of = (labels: readonly number[]): Antichain => {
    const words = new Array<number>(width).fill(0);
    for (const label of labels) words[label >>> 5] = (words[label >>> 5] as number) | (1 << (label & 31));
    return words;
  };

  const list = (family: Antichain): number[][] => {
    const sets: number[][] = [];
    for (let i = 0; i < family.length; i += width) {
      const set: number[] = [];
      for (let label = 0; label < labelCount; label += 1) {
        if (((family[i + (label >>> 5)] as number) >>> (label & 31)) & 1) set.push(label);
      }
      sets.push(set);
    }
    return sets.sort(bySizeThenLabels);
  };

  return { width, none, free, of, either, both, list, wasCut: () => cut };
};

/** Order of label sets: fewer labels first, then the smaller first label that differs. */
export const bySizeThenLabels = (a: readonly number[], b: readonly number[]): number => {
  if (a.length !== b.length) return a.length - b.length;
  for (let i = 0; i < a.length; i += 1) {
    const difference = (a[i] as number) - (b[i] as number);
    if (difference !== 0) return difference;
  }
  return 0;
};
