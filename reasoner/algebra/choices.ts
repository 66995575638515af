/**
 * Whether, and which, choices of one class for each slot have no failing joint: the yes-or-no question asked hundreds of times for
 * one verdict, so it has a solver of its own over bit sets. Arc consistency is kept while slots are decided one after
 * another, the slot with fewest classes first. (Mackworth, "Consistency in networks of relations", Artificial Intelligence 8 (1977); Sabin & Freuder,
 * "Contradicting conventional wisdom in constraint satisfaction", ECAI 1994.)
 */
export interface Pairing {
  readonly a: number;
  readonly b: number;
  /** Bit rows: for each class of slot a the classes of slot b it meets, and the other way round. */
  readonly fromA: Uint32Array;
  readonly fromB: Uint32Array;
}

export interface ChoiceSpace {
  /** First word of each slot's bits, and one past the last. */
  readonly starts: readonly number[];
  readonly pairings: readonly Pairing[];
  /** For each slot, the numbers of the pairings that touch it. */
  readonly touching: readonly (readonly number[])[];
}

/** Classes still possible, slot after slot, as bits. A slot that takes no part is given no bits and is left out by `included`. */
export interface Domains {
  readonly words: Uint32Array;
  readonly included: readonly boolean[];
  /** By pairing, whether it counts; all do where it is left out. */
  readonly active?: Uint8Array;
}

export const choiceSpace = (classCounts: readonly number[], joints: readonly { a: number; b: number; holds: Uint8Array }[]): ChoiceSpace =>
  spaceOf(
    classCounts,
    joints.map(({ a, b, holds }) => pairingOf(a, b, classCounts, holds)),
  );

/** @param holds row-major by a's class: 0 where two classes do not meet */
export const pairingOf = (a: number, b: number, classCounts: readonly number[], holds: Uint8Array): Pairing => {
  const [countA, countB] = [classCounts[a] as number, classCounts[b] as number];
  const [wide, high] = [wordsFor(countB), wordsFor(countA)];
  const fromA = new Uint32Array(countA * wide);
  const fromB = new Uint32Array(countB * high);
  for (let i = 0; i < countA; i += 1) {
    for (let j = 0; j < countB; j += 1) {
      if (holds[i * countB + j] === 0) continue;
      fromA[i * wide + (j >>> 5)] = (fromA[i * wide + (j >>> 5)] as number) | (1 << (j & 31));
      fromB[j * high + (i >>> 5)] = (fromB[j * high + (i >>> 5)] as number) | (1 << (i & 31));
    }
  }
  return { a, b, fromA, fromB };
};

/** @param pairings made for these counts */
export const spaceOf = (classCounts: readonly number[], pairings: readonly Pairing[]): ChoiceSpace => {
  const starts = [0];
  for (const count of classCounts) starts.push((starts.at(-1) as number) + wordsFor(count));
  const touching = classCounts.map((_, slot) =>
    pairings.flatMap((pairing, number) => (pairing.a === slot || pairing.b === slot ? [number] : [])),
  );
  return { starts, pairings, touching };
};

/** Whether a class of one slot of a pairing meets any of these of the other. */
export const meetsAny = (space: ChoiceSpace, pairing: number, slot: number, mating: number, others: Iterable<number>): boolean => {
  const { a, b, fromA, fromB } = space.pairings[pairing] as Pairing;
  const [rows, other] = slot === a ? [fromA, b] : [fromB, a];
  const wide = (space.starts[other + 1] as number) - (space.starts[other] as number);
  for (const each of others) if (((rows[mating * wide + (each >>> 5)] as number) & (1 << (each & 31))) !== 0) return true;
  return false;
};

/** Words of 32 bits for so many classes; a slot without any has one, of none. */
export const wordsFor = (count: number): number => Math.max(1, Math.ceil(count / 32));

/** Domains with the given classes; null leaves a slot out. */
export const domainsOf = (space: ChoiceSpace, classes: readonly (Iterable<number> | null)[]): Domains => {
  const words = new Uint32Array(space.starts.at(-1) as number);
  classes.forEach((list, slot) => {
    if (list === null) return;
    const start = space.starts[slot] as number;
    for (const each of list) words[start + (each >>> 5)] = (words[start + (each >>> 5)] as number) | (1 << (each & 31));
  });
  return { words, included: classes.map((list) => list !== null) };
};

export const classesIn = (space: ChoiceSpace, words: Uint32Array, slot: number): number[] => {
  const found: number[] = [];
  const start = space.starts[slot] as number;
  const end = space.starts[slot + 1] as number;
  for (let w = start; w < end; w += 1) {
    for (let bits = words[w] as number; bits !== 0; bits &= bits - 1) found.push((w - start) * 32 + (31 - Math.clz32(bits & -bits)));
  }
  return found;
};

/** Whether there is a choice for the included slots. */
export const hasChoice = (space: ChoiceSpace, domains: Domains): boolean => {
  const words = domains.words.slice();
  return propagate(space, domains, words, -1) && decidable(space, domains, words);
};

/** For every included slot, the classes that some choice has; empty everywhere when there is no choice. */
export const choosableClasses = (space: ChoiceSpace, domains: Domains): Uint32Array => {
  const supported = new Uint32Array(domains.words.length);
  const words = domains.words.slice();
  if (!propagate(space, domains, words, -1)) return supported;
  domains.included.forEach((included, slot) => {
    if (!included) return;
    for (const each of classesIn(space, words, slot)) {
      const at = (space.starts[slot] as number) + (each >>> 5);
      if ((supported[at] as number) & (1 << (each & 31))) continue;
      const trial = words.slice();
      if (only(space, trial, slot, each) && propagate(space, domains, trial, slot)) support(space, domains, trial, supported);
    }
  });
  return supported;
};

/** Whether arc consistent `words` hold a choice; if so, adds to `supported` the classes of some, and where no ring is left of all that do. */
const support = (space: ChoiceSpace, domains: Domains, words: Uint32Array, supported: Uint32Array): boolean => {
  const { slot, ring } = undecided(space, domains, words);
  if (!ring) {
    // Without a ring every class that is left is in some choice.
    for (let w = 0; w < words.length; w += 1) supported[w] = (supported[w] as number) | (words[w] as number);
    return true;
  }
  for (const each of classesIn(space, words, slot)) {
    const trial = words.slice();
    if (only(space, trial, slot, each) && propagate(space, domains, trial, slot) && support(space, domains, trial, supported)) return true;
  }
  return false;
};

const only = (space: ChoiceSpace, words: Uint32Array, slot: number, each: number): true => {
  const start = space.starts[slot] as number;
  words.fill(0, start, space.starts[slot + 1] as number);
  words[start + (each >>> 5)] = 1 << (each & 31);
  return true;
};

/**
 * Of arc consistent `words`, the slot with fewest classes among those with several, and whether pairings join such slots in a ring. Slots with one class left are
 * decided; where the others are joined without a ring, arc consistency is enough (Freuder, "A sufficient condition for backtrack-free search", J. ACM 29 (1982)).
 */
const undecided = (space: ChoiceSpace, { included, active }: Domains, words: Uint32Array): { slot: number; ring: boolean } => {
  const root = new Int32Array(included.length);
  let slot = -1;
  let fewest = Number.POSITIVE_INFINITY;
  for (let s = 0; s < included.length; s += 1) {
    const left = included[s] ? countIn(space, words, s) : 1;
    root[s] = left > 1 ? s : -1;
    if (left > 1 && left < fewest) {
      fewest = left;
      slot = s;
    }
  }
  let ring = false;
  for (let number = 0; number < space.pairings.length && !ring; number += 1) {
    if (active !== undefined && active[number] === 0) continue;
    const { a, b } = space.pairings[number] as Pairing;
    if (root[a] === -1 || root[b] === -1) continue;
    const [one, other] = [rootOf(root, a), rootOf(root, b)];
    ring = one === other;
    root[one] = other;
  }
  return { slot, ring };
};

/** Whether arc consistent `words` hold a choice. */
const decidable = (space: ChoiceSpace, domains: Domains, words: Uint32Array): boolean => {
  const { slot, ring } = undecided(space, domains, words);
  if (!ring) return true;
  for (const each of classesIn(space, words, slot)) {
    const trial = words.slice();
    only(space, trial, slot, each);
    if (propagate(space, domains, trial, slot) && decidable(space, domains, trial)) return true;
  }
  return false;
};

const rootOf = (root: Int32Array, slot: number): number => {
  let at = slot;
  while (root[at] !== at) at = root[at] as number;
  return at;
};

const countIn = (space: ChoiceSpace, words: Uint32Array, slot: number): number => {
  let count = 0;
  for (let w = space.starts[slot] as number; w < (space.starts[slot + 1] as number); w += 1) {
    for (let bits = words[w] as number; bits !== 0; bits &= bits - 1) count += 1;
  }
  return count;
};

/** Removes classes without a partner across a pairing, to a fixed point; false when a slot runs empty. Only `changed` has changed, or (−1) every slot. */
const propagate = (space: ChoiceSpace, { included, active }: Domains, words: Uint32Array, changed: number): boolean => {
  const waiting = new Uint8Array(included.length);
  if (changed >= 0) waiting[changed] = 1;
  else {
    for (let slot = 0; slot < included.length; slot += 1) {
      if (!included[slot]) continue;
      if (isEmpty(space, words, slot)) return false;
      waiting[slot] = 1;
    }
  }
  for (let next = waiting.indexOf(1); next >= 0; next = waiting.indexOf(1)) {
    waiting[next] = 0;
    for (const number of space.touching[next] as readonly number[]) {
      if (active !== undefined && active[number] === 0) continue;
      const { a, b, fromA, fromB } = space.pairings[number] as Pairing;
      const other = a === next ? b : a;
      if (!included[other]) continue;
      const outcome = revise(space, words, other, next, a === next ? fromB : fromA);
      if (outcome === 'empty') return false;
      if (outcome === 'less') waiting[other] = 1;
    }
  }
  return true;
};

const isEmpty = (space: ChoiceSpace, words: Uint32Array, slot: number): boolean => {
  for (let w = space.starts[slot] as number; w < (space.starts[slot + 1] as number); w += 1) if (words[w] !== 0) return false;
  return true;
};

/** Clears the classes of `slot` that meet none left of `partner`. */
const revise = (space: ChoiceSpace, words: Uint32Array, slot: number, partner: number, rows: Uint32Array): 'same' | 'less' | 'empty' => {
  const start = space.starts[slot] as number;
  const end = space.starts[slot + 1] as number;
  const from = space.starts[partner] as number;
  const wide = (space.starts[partner + 1] as number) - from;
  let less = false;
  let left = false;
  for (let w = start; w < end; w += 1) {
    let kept = words[w] as number;
    for (let bits = kept; bits !== 0; bits &= bits - 1) {
      const lowest = bits & -bits;
      const row = ((w - start) * 32 + (31 - Math.clz32(lowest))) * wide;
      let meets = false;
      for (let k = 0; k < wide; k += 1) {
        if (((rows[row + k] as number) & (words[from + k] as number)) !== 0) {
          meets = true;
          break;
        }
      }
      if (!meets) kept &= ~lowest;
    }
    if (kept >>> 0 !== (words[w] as number)) {
      words[w] = kept;
      less = true;
    }
    if (kept !== 0) left = true;
  }
  return left ? (less ? 'less' : 'same') : 'empty';
};
