/**
 * Whether, and which, choices of one class for each slot have no failing joint: the yes-or-no question asked hundreds of times for
 * one verdict, so it has a solver of its own. Classes that read alike at a joint are one row of it, and a row meets runs of the other side's rows, so
 * that a joint takes the room of its rows however many pairs there are. Arc consistency is kept while slots are decided one after
 * another. (Mackworth, "Consistency in networks of relations", Artificial Intelligence 8 (1977); Sabin & Freuder,
 * "Contradicting conventional wisdom in constraint satisfaction", ECAI 1994.)
 */
export interface Pairing {
  readonly a: number;
  readonly b: number;
  readonly ofA: Side;
  readonly ofB: Side;
}

/** One side of a pairing: the rows of its slot's classes, and the rows of the other side each meets. */
export interface Side {
  /** Row of each class. */
  readonly of: Int32Array;
  /** Classes of each row: those of row r are `classes[first[r]]` to `classes[first[r + 1] − 1]`. */
  readonly classes: Int32Array;
  readonly first: Int32Array;
  /** What each row meets: of run k the first row, `runs[2k]`, and one past the last, `runs[2k + 1]`; the runs of row r are `firstRun[r]` to `firstRun[r + 1] − 1`, ascending and apart. */
  readonly runs: Int32Array;
  readonly firstRun: Int32Array;
}

export interface ChoiceSpace {
  /** How many classes each slot has. */
  readonly counts: readonly number[];
  readonly pairings: readonly Pairing[];
  /** For each slot, the numbers of the pairings that touch it. */
  readonly touching: readonly (readonly number[])[];
}

/** Classes of one slot, each once. */
export type Classes = Int32Array;

export interface Domains {
  /** Classes still possible, slot after slot. A slot that takes no part is null. */
  readonly classes: readonly (Classes | null)[];
  /** By pairing, whether it counts; all do where it is left out. */
  readonly active?: Uint8Array;
}

/** Runs of ascending rows, gathered row after row. */
export class Runs {
  #runs = new Int32Array(64);
  #length = 0;
  readonly #first: number[] = [0];

  /** Rows `from` to `to` − 1, none of which comes before one already added to this row. */
  add(from: number, to: number): void {
    if (from >= to) return;
    const begun = (this.#first.at(-1) as number) * 2 < this.#length;
    if (begun && (this.#runs[this.#length - 1] as number) >= from) {
      if (to > (this.#runs[this.#length - 1] as number)) this.#runs[this.#length - 1] = to;
      return;
    }
    if (this.#length + 2 > this.#runs.length) {
      const wider = new Int32Array(this.#runs.length * 2);
      wider.set(this.#runs);
      this.#runs = wider;
    }
    this.#runs[this.#length] = from;
    this.#runs[this.#length + 1] = to;
    this.#length += 2;
  }

  /** What is added from now on is of the next row. */
  next(): void {
    this.#first.push(this.#length / 2);
  }

  get rows(): number {
    return this.#first.length - 1;
  }

  /** The runs of a row, as pairs. */
  of(row: number): Int32Array {
    return this.#runs.subarray((this.#first[row] as number) * 2, (this.#first[row + 1] as number) * 2);
  }

  /** @param of row of each class; there are as many rows as `next` was called */
  side(of: Int32Array): Side {
    const rows = this.#first.length - 1;
    return { of, ...sorted(of, rows), runs: this.#runs.slice(0, this.#length), firstRun: Int32Array.from(this.#first) };
  }
}

/** Classes by their row. */
const sorted = (of: Int32Array, rows: number): Pick<Side, 'classes' | 'first'> => {
  const first = new Int32Array(rows + 1);
  for (let i = 0; i < of.length; i += 1) first[(of[i] as number) + 1] = (first[(of[i] as number) + 1] as number) + 1;
  for (let row = 0; row < rows; row += 1) first[row + 1] = (first[row + 1] as number) + (first[row] as number);
  const at = first.slice();
  const classes = new Int32Array(of.length);
  for (let i = 0; i < of.length; i += 1) {
    const row = of[i] as number;
    classes[at[row] as number] = i;
    at[row] = (at[row] as number) + 1;
  }
  return { classes, first };
};

/**
 * A pairing told from its first side alone.
 * @param ofA row of each class of slot a, and likewise of slot b
 * @param met rows of b that a row of a meets, ascending
 */
export const pairingOf = (
  [a, ofA, rowsA]: readonly [slot: number, of: Int32Array, rows: number],
  [b, ofB, rowsB]: readonly [slot: number, of: Int32Array, rows: number],
  met: (row: number) => Iterable<number>,
): Pairing => {
  const forward = new Runs();
  const back: number[][] = Array.from({ length: rowsB }, () => []);
  for (let row = 0; row < rowsA; row += 1) {
    for (const other of met(row)) {
      forward.add(other, other + 1);
      (back[other] as number[]).push(row);
    }
    forward.next();
  }
  const backward = new Runs();
  for (const rows of back) {
    for (const row of rows) backward.add(row, row + 1);
    backward.next();
  }
  return { a, b, ofA: forward.side(ofA), ofB: backward.side(ofB) };
};

/**
 * The same pairing between other classes, each of which is one of those it was made for.
 * @param ofA for each class of slot a the one it is, and likewise for slot b
 */
export const regrouped = ({ a, b, ofA, ofB }: Pairing, toA: Int32Array, toB: Int32Array): Pairing => {
  const side = (own: Side, to: Int32Array): Side => {
    const of = to.map((each) => own.of[each] as number);
    return { ...own, of, ...sorted(of, own.first.length - 1) };
  };
  return { a, b, ofA: side(ofA, toA), ofB: side(ofB, toB) };
};

/**
 * The pairing with those pairs of classes alone that are kept.
 * @param groupA for each class of slot a the number of a group within which all are kept or not alike, and likewise for slot b
 * @param keep asked of an example of each side, where the two meet
 */
export const narrowed = (
  { a, b, ofA, ofB }: Pairing,
  groupA: Int32Array,
  groupB: Int32Array,
  keep: (a: number, b: number) => boolean,
): Pairing => {
  const [one, other] = [finer(ofA, groupA), finer(ofB, groupB)];
  return pairingOf([a, one.of, one.example.length], [b, other.of, other.example.length], function* (row) {
    const own = one.example[row] as number;
    const before = ofA.of[own] as number;
    for (let run = ofA.firstRun[before] as number; run < (ofA.firstRun[before + 1] as number); run += 1) {
      const [from, to] = [other.from[ofA.runs[run * 2] as number] as number, other.from[ofA.runs[run * 2 + 1] as number] as number];
      for (let at = from; at < to; at += 1) if (keep(own, other.example[at] as number)) yield at;
    }
  });
};

/** The rows of a side told apart further, numbered in the order of its rows; `from` is where those of each row begin. */
const finer = ({ of: row, classes, first }: Side, group: Int32Array): { of: Int32Array; example: number[]; from: Int32Array } => {
  const of = new Int32Array(row.length);
  const example: number[] = [];
  const from = new Int32Array(first.length);
  for (let at = 0; at + 1 < first.length; at += 1) {
    const numbers = new Map<number, number>();
    for (let i = first[at] as number; i < (first[at + 1] as number); i += 1) {
      const each = classes[i] as number;
      let number = numbers.get(group[each] as number);
      if (number === undefined) {
        number = example.push(each) - 1;
        numbers.set(group[each] as number, number);
      }
      of[each] = number;
    }
    from[at + 1] = example.length;
  }
  return { of, example, from };
};

/** @param pairings made for these counts */
export const spaceOf = (counts: readonly number[], pairings: readonly Pairing[]): ChoiceSpace => ({
  counts,
  pairings,
  touching: counts.map((_, slot) => pairings.flatMap((pairing, number) => (pairing.a === slot || pairing.b === slot ? [number] : []))),
});

const sides = ({ a, ofA, ofB }: Pairing, slot: number): readonly [own: Side, other: Side] => (slot === a ? [ofA, ofB] : [ofB, ofA]);

/** Whether a row of this side meets a row of the other. */
const rowMeets = ({ runs, firstRun }: Side, row: number, other: number): boolean => {
  let [low, high] = [firstRun[row] as number, firstRun[row + 1] as number];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((runs[middle * 2 + 1] as number) <= other) low = middle + 1;
    else high = middle;
  }
  return low < (firstRun[row + 1] as number) && (runs[low * 2] as number) <= other;
};

/** Whether two classes meet, of the first slot of a pairing and of its second. */
export const meet = ({ ofA, ofB }: Pairing, a: number, b: number): boolean => rowMeets(ofA, ofA.of[a] as number, ofB.of[b] as number);

/** The classes of the other slot of a pairing that one of this slot meets, in no order. */
export const partnersIn = (pairing: Pairing, slot: number, own: number): number[] => {
  const [side, other] = sides(pairing, slot);
  const row = side.of[own] as number;
  const found: number[] = [];
  for (let run = side.firstRun[row] as number; run < (side.firstRun[row + 1] as number); run += 1) {
    const [from, to] = [other.first[side.runs[run * 2] as number] as number, other.first[side.runs[run * 2 + 1] as number] as number];
    for (let at = from; at < to; at += 1) found.push(other.classes[at] as number);
  }
  return found;
};

/** Those of a slot's classes that meet some class of the other slot of a pairing, in the order they had. */
export const withPartner = (space: ChoiceSpace, number: number, slot: number, own: Classes, others: Classes): Classes =>
  thinned(space.pairings[number] as Pairing, slot, own, others);

/** Whether there is a choice for the slots that take part. */
export const hasChoice = (space: ChoiceSpace, domains: Domains): boolean => findChoice(space, domains) !== null;

/** A choice for the slots that take part: the class of each, or −1 of a slot that takes none; null where there is no choice. Of each slot those listed first are taken rather than others. */
export const findChoice = (space: ChoiceSpace, domains: Domains): Int32Array | null => {
  const left = domains.classes.slice();
  return propagate(space, domains, left, null) ? decide(space, domains, left) : null;
};

/** The domains without the classes that lack a partner; null where a slot runs empty. */
export const consistent = (space: ChoiceSpace, domains: Domains): Domains | null => {
  const left = domains.classes.slice();
  if (!propagate(space, domains, left, null)) return null;
  keep(space, left);
  return { ...domains, classes: left };
};

/**
 * A choice for consistent domains of which some slots are narrowed: only what follows from those is looked at.
 * @param within as `consistent` gives them
 * @param narrowed by slot, some of the classes it has there, or any of a slot that took no part; every other slot as it is
 */
export const findChoiceWithin = (space: ChoiceSpace, within: Domains, narrowed: ReadonlyMap<number, Classes>): Int32Array | null => {
  const left = within.classes.slice();
  for (const [slot, classes] of narrowed) {
    if (classes.length === 0) return null;
    left[slot] = classes;
  }
  for (const slot of narrowed.keys()) {
    // A slot that took no part has not been held against its neighbours.
    if (within.classes[slot] !== null) continue;
    const partnered = partneredIn(space, within, left, slot);
    if (partnered.length === 0) return null;
    left[slot] = partnered;
  }
  return propagate(space, within, left, [...narrowed.keys()]) ? decide(space, within, left) : null;
};

/** Those classes of a slot that have a partner across each of its pairings. */
const partneredIn = (space: ChoiceSpace, { active }: Domains, left: readonly (Classes | null)[], slot: number): Classes =>
  (space.touching[slot] as readonly number[]).reduce((own, number) => {
    const pairing = space.pairings[number] as Pairing;
    const others = left[pairing.a === slot ? pairing.b : pairing.a] ?? null;
    return others === null || active?.[number] === 0 ? own : revise(pairing, slot, own, others);
  }, left[slot] as Classes);

/** For every slot that takes part, the classes that some choice has, ascending; none anywhere when there is no choice. */
export const choosableClasses = (space: ChoiceSpace, domains: Domains): (Classes | null)[] => {
  const left = domains.classes.slice();
  if (!propagate(space, domains, left, null)) return domains.classes.map((classes) => (classes === null ? null : none));
  const found = domains.classes.map((classes, slot) => (classes === null ? null : new Uint8Array(space.counts[slot] as number)));
  gather(space, domains, left, found);
  return found.map((flags) => (flags === null ? null : flagged(flags)));
};

const none: Classes = new Int32Array(0);

const flagged = (flags: Uint8Array): Classes => {
  let count = 0;
  for (let i = 0; i < flags.length; i += 1) count += flags[i] as number;
  const classes = new Int32Array(count);
  let at = 0;
  for (let i = 0; i < flags.length; i += 1) {
    if (flags[i] === 0) continue;
    classes[at] = i;
    at += 1;
  }
  return classes;
};

/** Adds to `found` every class of arc consistent `left` that some choice has. */
const gather = (space: ChoiceSpace, domains: Domains, left: readonly (Classes | null)[], found: readonly (Uint8Array | null)[]): void => {
  const slot = ringSlot(space, domains, left);
  if (slot === -1) {
    // Without a ring every class that is left is in some choice.
    left.forEach((classes, other) => {
      if (classes === null) return;
      const flags = found[other] as Uint8Array;
      for (let i = 0; i < classes.length; i += 1) flags[classes[i] as number] = 1;
    });
    return;
  }
  keep(space, left);
  for (const each of left[slot] as Classes) {
    const trial = left.slice();
    trial[slot] = Int32Array.of(each);
    if (propagate(space, domains, trial, [slot])) gather(space, domains, trial, found);
  }
};

/** A choice of arc consistent `left`. */
const decide = (space: ChoiceSpace, domains: Domains, left: readonly (Classes | null)[]): Int32Array | null => {
  const slot = ringSlot(space, domains, left);
  if (slot === -1) return withoutRing(space, domains, left);
  for (const each of left[slot] as Classes) {
    const trial = left.slice();
    trial[slot] = Int32Array.of(each);
    if (!propagate(space, domains, trial, [slot])) continue;
    const choice = decide(space, domains, trial);
    if (choice !== null) return choice;
  }
  return null;
};

/** A choice of arc consistent `left` that pairings join without a ring: slot after slot, each with a class that meets what its neighbour was given. */
const withoutRing = (space: ChoiceSpace, { active }: Domains, left: readonly (Classes | null)[]): Int32Array => {
  const choice = Int32Array.from(left, (classes) => (classes?.length === 1 ? (classes[0] as number) : -1));
  const walk = (slot: number): void => {
    for (const number of space.touching[slot] as readonly number[]) {
      if (active !== undefined && active[number] === 0) continue;
      const pairing = space.pairings[number] as Pairing;
      const other = pairing.a === slot ? pairing.b : pairing.a;
      // What is decided meets all that is left beside it.
      if (!isOpen(left[other]) || choice[other] !== -1) continue;
      const [own, across] = sides(pairing, slot);
      const row = own.of[choice[slot] as number] as number;
      choice[other] = (left[other] as Classes).find((each) => rowMeets(own, row, across.of[each] as number)) as number;
      walk(other);
    }
  };
  left.forEach((classes, slot) => {
    if (!isOpen(classes) || choice[slot] !== -1) return;
    choice[slot] = (classes as Classes)[0] as number;
    walk(slot);
  });
  return choice;
};

/**
 * The slot to decide next, or −1 where pairings join what is undecided without a ring: there arc consistency is enough (Freuder, "A sufficient condition for
 * backtrack-free search", J. ACM 29 (1982)). A slot with one class left is decided. Of those in a ring the one is taken that opens all rings, and among these the one of fewest
 * classes: each of its classes is tried, and what is left of a trial is without a ring (Dechter, "Enhancement schemes for constraint processing: backjumping, learning, and
 * cutset decomposition", Artificial Intelligence 41 (1990)).
 */
const ringSlot = ({ pairings }: ChoiceSpace, { active }: Domains, left: readonly (Classes | null)[]): number => {
  const edges: Pairing[] = [];
  for (let number = 0; number < pairings.length; number += 1) {
    if (active !== undefined && active[number] === 0) continue;
    const pairing = pairings[number] as Pairing;
    if (isOpen(left[pairing.a]) && isOpen(left[pairing.b])) edges.push(pairing);
  }
  if (ringsIn(edges, left.length, -1) === 0) return -1;
  let [best, fewest, rings] = [-1, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let slot = 0; slot < left.length; slot += 1) {
    const classes = left[slot];
    if (!isOpen(classes) || !edges.some(({ a, b }) => a === slot || b === slot)) continue;
    const still = ringsIn(edges, left.length, slot);
    const count = (classes as Classes).length;
    if (still > rings || (still === rings && count >= fewest)) continue;
    [best, fewest, rings] = [slot, count, still];
  }
  return best;
};

const isOpen = (classes: Classes | null | undefined): boolean => classes !== null && classes !== undefined && classes.length > 1;

/** How many pairings could be taken away before no ring is left, the pairings of one slot aside. */
const ringsIn = (edges: readonly Pairing[], slots: number, without: number): number => {
  const root = Int32Array.from({ length: slots }, (_, slot) => slot);
  let rings = 0;
  for (const { a, b } of edges) {
    if (a === without || b === without) continue;
    const [one, other] = [rootOf(root, a), rootOf(root, b)];
    if (one === other) rings += 1;
    root[one] = other;
  }
  return rings;
};

const rootOf = (root: Int32Array, slot: number): number => {
  let at = slot;
  while (root[at] !== at) at = root[at] as number;
  return at;
};

/**
 * Takes from `left` the classes without a partner across a pairing, to a fixed point; false when a slot runs empty. Only the slots `changed` have changed, or (null) every slot.
 * The slot with fewest classes goes first, so that a few classes narrow many before many are held against many.
 */
const propagate = (space: ChoiceSpace, { active }: Domains, left: (Classes | null)[], changed: readonly number[] | null): boolean => {
  const waiting = new Uint8Array(left.length);
  if (changed !== null) for (const slot of changed) waiting[slot] = 1;
  else {
    for (let slot = 0; slot < left.length; slot += 1) {
      const classes = left[slot];
      if (classes === null || classes === undefined) continue;
      if (classes.length === 0) return false;
      waiting[slot] = 1;
    }
  }
  for (let next = fewestOf(waiting, left); next !== -1; next = fewestOf(waiting, left)) {
    waiting[next] = 0;
    for (const number of space.touching[next] as readonly number[]) {
      if (active !== undefined && active[number] === 0) continue;
      const pairing = space.pairings[number] as Pairing;
      const other = pairing.a === next ? pairing.b : pairing.a;
      const before = left[other];
      if (before === null || before === undefined) continue;
      const after = revise(pairing, other, before, left[next] as Classes);
      if (after.length === before.length) continue;
      if (after.length === 0) return false;
      left[other] = after;
      waiting[other] = 1;
    }
  }
  return true;
};

const fewestOf = (waiting: Uint8Array, left: readonly (Classes | null)[]): number => {
  let best = -1;
  for (let slot = 0; slot < waiting.length; slot += 1) {
    if (waiting[slot] === 1 && (best === -1 || (left[slot] as Classes).length < (left[best] as Classes).length)) best = slot;
  }
  return best;
};

/** Marks on rows, made once and used again: a row is marked in the round whose number it bears. */
const scratch = { marks: new Int32Array(1024), counts: new Int32Array(1024), kept: new Int32Array(1024), round: 0 };

const roomFor = (rows: number, classes: number): void => {
  if (scratch.marks.length <= rows) {
    scratch.marks = new Int32Array(rows * 2);
    scratch.counts = new Int32Array(rows * 2);
  }
  if (scratch.kept.length < classes) scratch.kept = new Int32Array(classes * 2);
  // Long before a round's number has no room, marks begin anew.
  if (scratch.round >= 2 ** 30) {
    scratch.marks.fill(0);
    scratch.round = 0;
  }
};

/** Of lists that are narrowed again and again, which classes are in them. */
const lasting = new WeakMap<Classes, Uint8Array>();

/** Says that these lists will be narrowed many times over. */
const keep = (space: ChoiceSpace, lists: readonly (Classes | null)[]): void =>
  lists.forEach((classes, slot) => {
    if (classes === null || classes.length < longList || lasting.has(classes)) return;
    const flags = new Uint8Array(space.counts[slot] as number);
    for (let i = 0; i < classes.length; i += 1) flags[classes[i] as number] = 1;
    lasting.set(classes, flags);
  });

/** A shorter list is soon gone through. */
const longList = 64;

/** Those of `own`, classes of `slot`, that meet some of the others, in any order; `own` itself where all do. */
const revise = (pairing: Pairing, slot: number, own: Classes, others: Classes): Classes => {
  if (own.length >= longList && others.length * 8 < own.length) {
    const flags = lasting.get(own);
    if (flags !== undefined) {
      const reached = among(flags, own, pairing, slot, others);
      if (reached !== null) return reached;
    }
  }
  return thinned(pairing, slot, own, others);
};

/** The same found from what the others meet; null where that is not much less than there is. */
const among = (flags: Uint8Array, own: Classes, pairing: Pairing, slot: number, others: Classes): Classes | null => {
  const [side, other] = sides(pairing, slot);
  let reach = 0;
  for (let i = 0; i < others.length; i += 1) {
    const row = other.of[others[i] as number] as number;
    for (let run = other.firstRun[row] as number; run < (other.firstRun[row + 1] as number); run += 1) {
      reach += (side.first[other.runs[run * 2 + 1] as number] as number) - (side.first[other.runs[run * 2] as number] as number);
    }
    if (reach * 4 > own.length) return null;
  }
  roomFor(side.first.length, reach);
  const { marks, kept } = scratch;
  scratch.round += 1;
  const { round } = scratch;
  let length = 0;
  for (let i = 0; i < others.length; i += 1) {
    const from = other.of[others[i] as number] as number;
    for (let run = other.firstRun[from] as number; run < (other.firstRun[from + 1] as number); run += 1) {
      for (let row = other.runs[run * 2] as number; row < (other.runs[run * 2 + 1] as number); row += 1) {
        if (marks[row] === round) continue;
        marks[row] = round;
        for (let at = side.first[row] as number; at < (side.first[row + 1] as number); at += 1) {
          const each = side.classes[at] as number;
          kept[length] = each;
          if (flags[each] === 1) length += 1;
        }
      }
    }
  }
  return length === own.length ? own : kept.slice(0, length);
};

/** The same in the order they had. */
const thinned = (pairing: Pairing, slot: number, own: Classes, others: Classes): Classes => {
  const [side, other] = sides(pairing, slot);
  const [ownRows, otherRows] = [side.first.length - 1, other.first.length - 1];
  roomFor(Math.max(ownRows, otherRows) + 1, own.length);
  const { marks, counts, kept } = scratch;
  scratch.round += 1;
  const { round } = scratch;
  let length = 0;
  if (others.length * 4 < own.length || others.length < 8) {
    // Few on the other side: what they meet is marked.
    for (let i = 0; i < others.length; i += 1) {
      const row = other.of[others[i] as number] as number;
      for (let run = other.firstRun[row] as number; run < (other.firstRun[row + 1] as number); run += 1) {
        marks.fill(round, other.runs[run * 2] as number, other.runs[run * 2 + 1] as number);
      }
    }
    for (let i = 0; i < own.length; i += 1) {
      const each = own[i] as number;
      kept[length] = each;
      if (marks[side.of[each] as number] === round) length += 1;
    }
    return length === own.length ? own : kept.slice(0, length);
  }
  // Many: how many of them stand before each row is counted once, and a run holds some where the count rises over it.
  counts.fill(0, 0, otherRows + 1);
  for (let i = 0; i < others.length; i += 1) counts[(other.of[others[i] as number] as number) + 1] = 1;
  for (let row = 0; row < otherRows; row += 1) counts[row + 1] = (counts[row + 1] as number) + (counts[row] as number);
  const { of, runs, firstRun } = side;
  for (let i = 0; i < own.length; i += 1) {
    const each = own[i] as number;
    const row = of[each] as number;
    kept[length] = each;
    for (let run = firstRun[row] as number; run < (firstRun[row + 1] as number); run += 1) {
      if ((counts[runs[run * 2 + 1] as number] as number) > (counts[runs[run * 2] as number] as number)) {
        length += 1;
        break;
      }
    }
  }
  return length === own.length ? own : kept.slice(0, length);
};
