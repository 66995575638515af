/**
 * Minimal conflicts up to a few members, fast: the question a verdict asks for the claimed name after every entry.
 *
 * A *fact* says which values of one variable, or which pairs of two, remain possible when certain labels hold. Variables
 * are eliminated one by one; what the facts about a variable say together is handed on to its neighbours as new facts with the
 * labels of both. A fact that leaves nothing possible is a conflict. This is variable elimination (Dechter, "Bucket elimination", Artificial
 * Intelligence 113 (1999)) on relations that carry their reasons, as assumption-based truth maintenance does (de Kleer, Artificial Intelligence 28 (1986)).
 *
 * Exact for every set of at most `largest` labels where no variable has more than two neighbours when its turn comes, which
 * is so for the joints of a turbocharger; `explainedConflicts` gives null where it is not, and the general engine takes over.
 */
export interface Explained {
  /** Sorted label lists. */
  readonly found: number[][];
  /** Whether something was left out for having more labels than `largest`. */
  readonly leftOut: boolean;
}

export interface LabelledNetwork {
  readonly sizes: readonly number[];
  /** For a variable, the values that remain when the label holds. */
  readonly unary: readonly { readonly variable: number; readonly label: number; readonly allows: (value: number) => boolean }[];
  /** For two variables, the pairs that remain when the label holds. */
  readonly binary: readonly {
    readonly a: number;
    readonly b: number;
    readonly label: number;
    readonly allows: (a: number, b: number) => boolean;
  }[];
}

/** Labels 0 … 61, in two words. */
interface Fact {
  readonly low: number;
  readonly high: number;
  readonly bits: Uint32Array;
}

export const mostLabels = 62;

export const explainedConflicts = (network: LabelledNetwork, largest: number): Explained | null => {
  const order = eliminationOrder(network);
  if (order === null || [...network.unary, ...network.binary].some(({ label }) => label >= mostLabels)) return null;
  const rank = new Array<number>(network.sizes.length);
  order.forEach((variable, i) => {
    rank[variable] = i;
  });
  const { sizes } = network;
  const widths = sizes.map((size) => Math.max(1, Math.ceil(size / 32)));
  const whole = sizes.map((size) => allOnes(size));
  const conflicts: Labels[] = [];
  let leftOut = false;

  // Facts about pairs are kept in rows of the variable that is eliminated first.
  const about = sizes.map((): Fact[] => []);
  const between = new Map<number, Fact[]>();
  const pairKey = (a: number, b: number): number =>
    (rank[a] as number) < (rank[b] as number) ? a * sizes.length + b : b * sizes.length + a;

  const note = (list: Fact[], fact: Fact): boolean => {
    if (count(fact.low) + count(fact.high) > largest) {
      leftOut = true;
      return false;
    }
    if (conflicts.some((known) => within(known, fact))) return false;
    if (fact.bits.every((word) => word === 0)) {
      for (let i = conflicts.length - 1; i >= 0; i -= 1) if (within(fact, conflicts[i] as Labels)) conflicts.splice(i, 1);
      conflicts.push({ low: fact.low, high: fact.high });
      return false;
    }
    for (const other of list) if (within(other, fact) && tighter(other, fact)) return false;
    let kept = 0;
    for (const other of list) if (!(within(fact, other) && tighter(fact, other))) list[kept++] = other;
    list.length = kept;
    list.push(fact);
    return true;
  };

  /** Every conjunction of the facts on a list that says more than those with fewer labels, the trivial one first. */
  const closed = (list: readonly Fact[], all: Uint32Array): Fact[] => {
    const kept: Fact[] = [];
    const waiting = [...list];
    for (let fact = waiting.pop(); fact !== undefined; fact = waiting.pop()) {
      const here = kept.length;
      const others = kept.slice();
      if (!note(kept, fact)) continue;
      for (let i = 0; i < here; i += 1) {
        const other = others[i] as Fact;
        const bits = fact.bits.map((word, w) => word & (other.bits[w] as number));
        const says = !sameWords(bits, fact.bits) && !sameWords(bits, other.bits);
        if (says) waiting.push({ low: fact.low | other.low, high: fact.high | other.high, bits });
      }
    }
    return [{ low: 0, high: 0, bits: all }, ...kept];
  };

  for (const { variable, label, allows } of network.unary) {
    const bits = new Uint32Array(widths[variable] as number);
    for (let value = 0; value < (sizes[variable] as number); value += 1) if (allows(value)) setBit(bits, value);
    if (!sameWords(bits, whole[variable] as Uint32Array)) note(about[variable] as Fact[], { ...labelled(label), bits });
  }
  const fullPair = new Map<number, Uint32Array>();
  const pairList = (key: number): Fact[] => {
    const known = between.get(key);
    if (known) return known;
    const made: Fact[] = [];
    between.set(key, made);
    const [a, b] = [Math.floor(key / sizes.length), key % sizes.length];
    const all = new Uint32Array((sizes[a] as number) * (widths[b] as number));
    for (let value = 0; value < (sizes[a] as number); value += 1) all.set(whole[b] as Uint32Array, value * (widths[b] as number));
    fullPair.set(key, all);
    return made;
  };
  for (const { a, b, label, allows } of network.binary) {
    const flipped = (rank[a] as number) > (rank[b] as number);
    const [first, second] = flipped ? [b, a] : [a, b];
    const wide = widths[second] as number;
    const bits = new Uint32Array((sizes[first] as number) * wide);
    for (let i = 0; i < (sizes[first] as number); i += 1) {
      for (let k = 0; k < (sizes[second] as number); k += 1) if (flipped ? allows(k, i) : allows(i, k)) setBit(bits, i * wide * 32 + k);
    }
    const list = pairList(pairKey(a, b));
    if (!sameWords(bits, fullPair.get(pairKey(a, b)) as Uint32Array)) note(list, { ...labelled(label), bits });
  }

  for (const variable of order) {
    const own = closed(about[variable] as Fact[], whole[variable] as Uint32Array);
    const neighbours = [...between.keys()].filter((key) => Math.floor(key / sizes.length) === variable).map((key) => key % sizes.length);
    const pairs = neighbours.map((other) =>
      closed(between.get(variable * sizes.length + other) as Fact[], fullPair.get(variable * sizes.length + other) as Uint32Array),
    );
    for (const fact of own) {
      if (conflicts.some((known) => within(known, fact))) continue;
      neighbours.forEach((other, n) => {
        for (const pair of pairs[n] as readonly Fact[]) {
          if (pair.low === 0 && pair.high === 0) continue;
          const bits = image(fact, pair, sizes[variable] as number, widths[other] as number);
          if (!sameWords(bits, whole[other] as Uint32Array))
            note(about[other] as Fact[], { low: fact.low | pair.low, high: fact.high | pair.high, bits });
        }
      });
      if (neighbours.length !== 2) continue;
      const [x, y] = neighbours as [number, number];
      const [first, second] = (rank[x] as number) < (rank[y] as number) ? [0, 1] : [1, 0];
      const [a, c] = [neighbours[first] as number, neighbours[second] as number];
      const list = pairList(pairKey(a, c));
      for (const one of pairs[first] as readonly Fact[]) {
        if (one.low === 0 && one.high === 0) continue;
        const left = { low: fact.low | one.low, high: fact.high | one.high };
        if (count(left.low) + count(left.high) > largest || conflicts.some((known) => within(known, left))) continue;
        const imageA = image(fact, one, sizes[variable] as number, widths[a] as number);
        for (const other of pairs[second] as readonly Fact[]) {
          if (other.low === 0 && other.high === 0) continue;
          const labels = { low: left.low | other.low, high: left.high | other.high };
          if (count(labels.low) + count(labels.high) > largest) {
            leftOut = true;
            continue;
          }
          const bits = composed(fact, one, other, sizes[variable] as number, sizes[a] as number, widths[a] as number, widths[c] as number);
          const imageC = image(fact, other, sizes[variable] as number, widths[c] as number);
          if (!isProduct(bits, imageA, imageC, sizes[a] as number, widths[c] as number)) note(list, { ...labels, bits });
        }
      }
    }
  }
  return { found: conflicts.map(labelList), leftOut };
};

interface Labels {
  readonly low: number;
  readonly high: number;
}

const labelled = (label: number): Labels => (label < 31 ? { low: 1 << label, high: 0 } : { low: 0, high: 1 << (label - 31) });
const labelList = ({ low, high }: Labels): number[] => {
  const list: number[] = [];
  for (let label = 0; label < mostLabels; label += 1) if (label < 31 ? (low >>> label) & 1 : (high >>> (label - 31)) & 1) list.push(label);
  return list;
};
const within = (a: Labels, b: Labels): boolean => (a.low & ~b.low) === 0 && (a.high & ~b.high) === 0;

const tighter = (a: Fact, b: Fact): boolean => {
  for (let w = 0; w < a.bits.length; w += 1) if (((a.bits[w] as number) & ~(b.bits[w] as number)) !== 0) return false;
  return true;
};
const sameWords = (a: Uint32Array, b: Uint32Array): boolean => {
  for (let w = 0; w < a.length; w += 1) if (a[w] !== b[w]) return false;
  return true;
};

const setBit = (bits: Uint32Array, at: number): void => {
  bits[at >>> 5] = (bits[at >>> 5] as number) | (1 << (at & 31));
};

const allOnes = (size: number): Uint32Array => {
  const bits = new Uint32Array(Math.max(1, Math.ceil(size / 32)));
  for (let value = 0; value < size; value += 1) setBit(bits, value);
  return bits;
};

/** What the neighbour may still be: the union of the rows of the values left. */
const image = (own: Fact, pair: Fact, size: number, wide: number): Uint32Array => {
  const bits = new Uint32Array(wide);
  for (let value = 0; value < size; value += 1) {
    if ((((own.bits[value >>> 5] as number) >>> (value & 31)) & 1) === 0) continue;
    for (let w = 0; w < wide; w += 1) bits[w] = (bits[w] as number) | (pair.bits[value * wide + w] as number);
  }
  return bits;
};

/** The pairs of neighbours that some value left joins, in rows of the first. */
const composed = (own: Fact, first: Fact, second: Fact, size: number, sizeA: number, wideA: number, wideC: number): Uint32Array => {
  const bits = new Uint32Array(sizeA * wideC);
  for (let value = 0; value < size; value += 1) {
    if ((((own.bits[value >>> 5] as number) >>> (value & 31)) & 1) === 0) continue;
    for (let k = 0; k < wideA; k += 1) {
      for (let word = first.bits[value * wideA + k] as number; word !== 0; word &= word - 1) {
        const row = (k * 32 + 31 - Math.clz32(word & -word)) * wideC;
        for (let w = 0; w < wideC; w += 1) bits[row + w] = (bits[row + w] as number) | (second.bits[value * wideC + w] as number);
      }
    }
  }
  return bits;
};

/** Whether the pairs are no more than each neighbour's own restriction; those are facts already. */
const isProduct = (bits: Uint32Array, imageA: Uint32Array, imageC: Uint32Array, sizeA: number, wideC: number): boolean => {
  for (let a = 0; a < sizeA; a += 1) {
    const inside = ((imageA[a >>> 5] as number) >>> (a & 31)) & 1;
    for (let w = 0; w < wideC; w += 1) if ((bits[a * wideC + w] as number) !== (inside ? (imageC[w] as number) : 0)) return false;
  }
  return true;
};

const count = (word: number): number => {
  let bits = word - ((word >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return (((bits + (bits >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
};

/** Fewest neighbours first; null when some variable has more than two when its turn comes. */
const eliminationOrder = ({ sizes, binary }: LabelledNetwork): number[] | null => {
  const around = sizes.map(() => new Set<number>());
  for (const { a, b } of binary) {
    (around[a] as Set<number>).add(b);
    (around[b] as Set<number>).add(a);
  }
  const left = new Set(sizes.keys());
  const order: number[] = [];
  while (left.size > 0) {
    let next = -1;
    for (const variable of left) {
      const degree = (around[variable] as Set<number>).size;
      const best = next === -1 ? Number.POSITIVE_INFINITY : (around[next] as Set<number>).size;
      if (degree < best || (degree === best && (sizes[variable] as number) > (sizes[next] as number))) next = variable;
    }
    const neighbours = [...(around[next] as Set<number>)];
    if (neighbours.length > 2) return null;
    for (const a of neighbours) {
      (around[a] as Set<number>).delete(next);
      for (const b of neighbours) if (a !== b) (around[a] as Set<number>).add(b);
    }
    left.delete(next);
    order.push(next);
  }
  return order;
};
