import { AroundSlot } from './around-slot.ts';
import { flagsOf, keep, type Revise, revise, those } from './narrow.ts';
import { type Classes, type Pairing, rowMeets, sides } from './pairing.ts';

/**
 * Whether, and which, choices of one class for each slot have no failing joint: the yes-or-no question asked hundreds of times for
 * one verdict, so it has a solver of its own. Arc consistency is kept while slots are decided one after
 * another. (Mackworth, "Consistency in networks of relations", Artificial Intelligence 8 (1977); Sabin & Freuder,
 * "Contradicting conventional wisdom in constraint satisfaction", ECAI 1994.)
 */
export interface ChoiceSpace {
  /** How many classes each slot has. */
  readonly counts: readonly number[];
  readonly pairings: readonly Pairing[];
  /** For each slot, the numbers of the pairings that touch it. */
  readonly touching: readonly (readonly number[])[];
  /** The space it was made from, where it was made from another: what no choice has there none has here. */
  readonly from?: Origin;
}

export interface Origin {
  readonly space: ChoiceSpace;
  /** By slot, for each class the one it is of there; null where they are the same. */
  readonly of: readonly (Int32Array | null)[];
  /** Slots of which some pairing is another than there. */
  readonly changed: readonly number[];
}

export interface Domains {
  /** Classes still possible, slot after slot. A slot that takes no part is null. */
  readonly classes: readonly (Classes | null)[];
  /** By pairing, whether it counts; all do where it is left out. */
  readonly active?: Uint8Array;
  /** How lists are narrowed, where one that remembers is worth its room. */
  readonly revise?: Revise;
}

/** @param pairings made for these counts */
export const spaceOf = (counts: readonly number[], pairings: readonly Pairing[], from?: Origin): ChoiceSpace => ({
  counts,
  pairings,
  touching: counts.map((_, slot) => pairings.flatMap((pairing, number) => (pairing.a === slot || pairing.b === slot ? [number] : []))),
  ...(from === undefined ? {} : { from }),
});

/** Whether there is a choice for the slots that take part. */
export const hasChoice = (space: ChoiceSpace, domains: Domains): boolean => findChoice(space, domains) !== null;

/** A choice for the slots that take part: the class of each, or −1 of a slot that takes none; null where there is no choice. Of a slot of which some classes are listed, those listed first are taken rather than others. */
export const findChoice = (space: ChoiceSpace, domains: Domains): Int32Array | null => {
  const begun = begin(space, domains);
  return begun === null ? null : decide(space, domains, begun.left);
};

/** The domains without the classes that lack a partner; null where a slot runs empty. */
export const consistent = (space: ChoiceSpace, domains: Domains): Domains | null => {
  const begun = begin(space, domains);
  if (begun === null) return null;
  const { left } = begun;
  keep(space.counts, left);
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
  const begun = begin(space, domains);
  if (begun === null) return domains.classes.map((classes) => (classes === null ? null : none));
  const { left, start } = begun;
  if (start?.exact) return left.slice();
  const found = domains.classes.map((classes, slot) => (classes === null ? null : new Uint8Array(space.counts[slot] as number)));
  gather(space, domains, left, found);
  const all = found.map((flags) => (flags === null ? null : flagged(flags)));
  // Of consistent slots in a ring there may yet be no choice.
  if (start !== null) [start.classes, start.exact] = [all.some((classes) => classes?.length === 0) ? null : all, true];
  return all;
};

/** What every question about the slots that take part begins with. */
interface Start {
  /** Consistent, with every class that some choice has; null where there is no choice. */
  classes: readonly (Classes | null)[] | null;
  /** Whether every one of them is in some choice. */
  exact: boolean;
}

/** Most units ask about all slots or leave one out. Of questions that leave more out there are many, and each is asked of few classes: those begin with what they are asked of. */
const mostLeftOut = 1;

const starts = new WeakMap<ChoiceSpace, Map<string, Start>>();

const startOf = (space: ChoiceSpace, takesPart: readonly boolean[]): Start => {
  const known = starts.get(space) ?? new Map<string, Start>();
  starts.set(space, known);
  const key = takesPart.map(Number).join('');
  let start = known.get(key);
  if (start === undefined) {
    start = { classes: startFrom(space, takesPart), exact: false };
    known.set(key, start);
  }
  return start;
};

const startFrom = (space: ChoiceSpace, takesPart: readonly boolean[]): (Classes | null)[] | null => {
  const { counts, from } = space;
  if (from === undefined) {
    const left = takesPart.map((takes, slot) => (takes ? Int32Array.from({ length: counts[slot] as number }, (_, each) => each) : null));
    return propagate(space, { classes: left }, left, null) ? left : null;
  }
  const before = startOf(from.space, takesPart).classes;
  if (before === null) return null;
  const left = before.map((classes, slot) => {
    const of = from.of[slot] ?? null;
    if (classes === null || of === null) return classes;
    const flags = flagsOf(classes, from.space.counts[slot] as number);
    return Int32Array.from({ length: of.length }, (_, each) => each).filter((each) => flags[of[each] as number] === 1);
  });
  const changed = from.changed.filter((slot) => takesPart[slot]);
  return propagate(space, { classes: left }, left, changed) ? left : null;
};

/** The domains held to what some choice has whatever is asked, and made consistent; null where a slot runs empty. `start`: they are just that. */
const begin = (space: ChoiceSpace, domains: Domains): { readonly left: (Classes | null)[]; readonly start: Start | null } | null => {
  const leftOut = domains.classes.filter((classes) => classes === null).length;
  if (domains.active !== undefined || leftOut > mostLeftOut) {
    const left = domains.classes.slice();
    return propagate(space, domains, left, null) ? { left, start: null } : null;
  }
  const start = startOf(
    space,
    domains.classes.map((classes) => classes !== null),
  );
  if (start.classes === null) return null;
  const left = start.classes.slice();
  const changed: number[] = [];
  for (const [slot, own] of domains.classes.entries()) {
    const all = left[slot] ?? null;
    // Each class stands once, so that a list as long as there are classes has them all.
    if (own === null || all === null || own.length === space.counts[slot]) continue;
    const kept = those(own, flagsOf(all, space.counts[slot] as number));
    if (kept.length === 0) return null;
    left[slot] = kept;
    if (kept.length < all.length) changed.push(slot);
  }
  if (changed.length === 0) return { left: start.classes.slice(), start };
  return propagate(space, domains, left, changed) ? { left, start: null } : null;
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
  const edges = undecided(space, domains, left);
  const classes = left[slot] as Classes;
  const withSome = (some: Classes) => leftWith(space, domains, left, slot, some);
  keep(space.counts, left);
  if (classes.length > fewClasses && ringsIn(unlike(edges), left.length, slot) === 0) {
    new AroundSlot({ counts: space.counts, pairings: edges, left, centre: slot, leftWith: withSome }).gather(found);
    return;
  }
  for (const each of classes) {
    const trial = withSome(Int32Array.of(each));
    if (trial !== null) gather(space, domains, trial, found);
  }
};

/** What is left of consistent slots once one of them has only some of its classes; null where a slot runs empty. */
const leftWith = (
  space: ChoiceSpace,
  domains: Domains,
  left: readonly (Classes | null)[],
  slot: number,
  some: Classes,
): (Classes | null)[] | null => {
  const trial = left.slice();
  trial[slot] = some;
  return propagate(space, domains, trial, [slot]) ? trial : null;
};

/** Each of so few is tried by itself. */
const fewClasses = 16;
/** Of pairings that join the same two slots one. */
const unlike = (edges: readonly Pairing[]): Pairing[] => [...new Map(edges.map((each) => [`${each.a} ${each.b}`, each])).values()];

/** The pairings that count between two undecided slots. */
const undecided = ({ pairings }: ChoiceSpace, { active }: Domains, left: readonly (Classes | null)[]): Pairing[] =>
  pairings.filter(({ a, b }, number) => active?.[number] !== 0 && isOpen(left[a]) && isOpen(left[b]));

/** A choice of arc consistent `left`. */
const decide = (space: ChoiceSpace, domains: Domains, left: readonly (Classes | null)[]): Int32Array | null => {
  const slot = ringSlot(space, domains, left);
  if (slot === -1) return withoutRing(space, domains, left);
  for (const each of left[slot] as Classes) {
    const trial = leftWith(space, domains, left, slot, Int32Array.of(each));
    const choice = trial && decide(space, domains, trial);
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
const ringSlot = (space: ChoiceSpace, domains: Domains, left: readonly (Classes | null)[]): number => {
  const edges = undecided(space, domains, left);
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
const propagate = (
  space: ChoiceSpace,
  { active, revise: narrow = revise }: Domains,
  left: (Classes | null)[],
  changed: readonly number[] | null,
): boolean => {
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
      const after = narrow(pairing, other, before, left[next] as Classes);
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
