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
}

export const choiceSpace = (
  classCounts: readonly number[],
  joints: readonly { a: number; b: number; holds: Uint8Array }[],
): ChoiceSpace => {
  const starts = [0];
  for (const count of classCounts) starts.push((starts.at(-1) as number) + wordsFor(count));
  const pairings = joints.map(({ a, b, holds }): Pairing => {
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
  });
  const touching = classCounts.map((_, slot) =>
    pairings.flatMap((pairing, number) => (pairing.a === slot || pairing.b === slot ? [number] : [])),
  );
  return { starts, pairings, touching };
};

const wordsFor = (count: number): number => Math.max(1, Math.ceil(count / 32));

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

/** One choice for the included slots (−1 for the others), or null when there is none. */
export const findChoice = (space: ChoiceSpace, domains: Domains): number[] | null => {
  const words = domains.words.slice();
  const all = domains.included.flatMap((included, slot) => (included ? [slot] : []));
  return propagate(space, domains.included, words, all) ? decide(space, domains.included, words) : null;
};

/** For every included slot, the classes that some choice has; empty everywhere when there is no choice. */
export const choosableClasses = (space: ChoiceSpace, domains: Domains): Uint32Array => {
  const { included } = domains;
  const supported = new Uint32Array(domains.words.length);
  const words = domains.words.slice();
  const slots = included.flatMap((each, slot) => (each ? [slot] : []));
  if (!propagate(space, included, words, slots)) return supported;
  for (const slot of slots) {
    for (const each of classesIn(space, words, slot)) {
      const at = (space.starts[slot] as number) + (each >>> 5);
      if ((supported[at] as number) & (1 << (each & 31))) continue;
      const trial = words.slice();
      const choice = only(space, trial, slot, each) && propagate(space, included, trial, [slot]) ? decide(space, included, trial) : null;
      choice?.forEach((taken, of) => {
        if (taken < 0) return;
        const word = (space.starts[of] as number) + (taken >>> 5);
        supported[word] = (supported[word] as number) | (1 << (taken & 31));
      });
    }
  }
  return supported;
};

const only = (space: ChoiceSpace, words: Uint32Array, slot: number, each: number): true => {
  const start = space.starts[slot] as number;
  words.fill(0, start, space.starts[slot + 1] as number);
  words[start + (each >>> 5)] = 1 << (each & 31);
  return true;
};

/** Decides the slots one after another, the one with fewest classes left first. `words` is arc consistent. */
const decide = (space: ChoiceSpace, included: readonly boolean[], words: Uint32Array): number[] | null => {
  let slot = -1;
  let fewest = Number.POSITIVE_INFINITY;
  const choice: number[] = [];
  for (let s = 0; s < included.length; s += 1) {
    if (!included[s]) {
      choice.push(-1);
      continue;
    }
    const left = classesIn(space, words, s);
    choice.push(left[0] as number);
    if (left.length > 1 && left.length < fewest) {
      fewest = left.length;
      slot = s;
    }
  }
  if (slot === -1) return choice;
  for (const each of classesIn(space, words, slot)) {
    const trial = words.slice();
    only(space, trial, slot, each);
    const found = propagate(space, included, trial, [slot]) ? decide(space, included, trial) : null;
    if (found) return found;
  }
  return null;
};

/** Removes classes without a partner across a pairing, to a fixed point; false when a slot runs empty. */
const propagate = (space: ChoiceSpace, included: readonly boolean[], words: Uint32Array, changed: readonly number[]): boolean => {
  const queue = [...changed];
  const waiting = new Set(queue);
  for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
    waiting.delete(next);
    for (const number of space.touching[next] as readonly number[]) {
      const { a, b, fromA, fromB } = space.pairings[number] as Pairing;
      const other = a === next ? b : a;
      if (!included[other]) continue;
      const outcome = revise(space, words, other, next, a === next ? fromB : fromA);
      if (outcome === 'empty') return false;
      if (outcome === 'less' && !waiting.has(other)) {
        waiting.add(other);
        queue.push(other);
      }
    }
  }
  return changed.every((slot) => !isEmpty(space, words, slot));
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
