import { type Classes, type Pairing, rowMeets, type Side, sides } from './pairing.ts';

/** The pairings of some slots, the classes left of each, and a slot that opens every ring. */
export interface Ring {
  /** How many classes each slot has. */
  readonly counts: readonly number[];
  /** Those that count and join two undecided slots. */
  readonly pairings: readonly Pairing[];
  /** Consistent; a slot that takes no part is null. */
  readonly left: readonly (Classes | null)[];
  readonly centre: number;
  /** What is left of each slot with some of the centre's classes, at the least every class some choice has with one of them; null where a slot runs empty. */
  readonly leftWith: (some: Classes) => readonly (Classes | null)[] | null;
}

/** A pairing as one of its slots sees it. */
interface Across {
  readonly own: Side;
  readonly other: Side;
}

/** A neighbour of a slot, the centre aside. */
interface Link {
  readonly to: number;
  /** Two classes go together where they meet in all of these. */
  readonly across: readonly [Across, ...Across[]];
  /** By row of the first of them, or by class where there are others: the classes of the centre with which it has a partner there; as of a round. */
  readonly with: Int32Array;
  /** Of which of them that is known. */
  readonly known: Int32Array;
  readonly round: Int32Array;
  /** How many rows across before each have a class that meets any class asked about; null where the neighbour is not beside the centre. */
  readonly near: Int32Array | null;
}

/** A slot beside the centre: by row of each pairing, the classes of the centre it meets. */
type Beside = readonly (Across & { readonly with: Int32Array })[];

/** Classes of the centre are asked about so many at a time, each a bit. */
const atOnce = 32;

/**
 * Which classes some choice has, where a slot opens every ring: with one class for it the rest is a tree, in which a class has a choice where it has a partner in each
 * direction that has one. Thirty-two classes of the centre are asked about together, as the bits of a number, and with how many of them a class has partners is
 * worked out when it is first asked for: mostly a few partners do for all of them, and what no class asked about leaves is not looked at. (Pearl, "Probabilistic Reasoning in Intelligent Systems" (1988), conditioning on a
 * cutset; Dechter, "Enhancement schemes for constraint processing", Artificial Intelligence 41 (1990).)
 */
export class AroundSlot {
  readonly #ring: Ring;
  /** By slot and class the last round it was left in. */
  readonly #leftIn: readonly (Int32Array | null)[];
  readonly #links: readonly (readonly Link[])[];
  readonly #beside: readonly Beside[];
  /** A slot of each piece of the tree. */
  readonly #roots: readonly number[];
  #round = 0;
  /** What the classes asked about leave. */
  #left: readonly (Classes | null)[];
  /** Of the classes asked about those that may have a choice. */
  #asked = 0;

  constructor(ring: Ring) {
    const { counts, left, centre } = ring;
    this.#ring = ring;
    this.#left = left;
    this.#leftIn = left.map((classes, slot) => (classes === null ? null : new Int32Array(counts[slot] as number)));
    this.#links = left.map((_, slot) => (slot === centre ? [] : linksOf(ring, slot).sort((p, q) => width(p) - width(q))));
    this.#beside = left.map((_, slot) =>
      acrossTo(ring, slot, centre).map((across) => ({ ...across, with: new Int32Array(across.own.first.length - 1) })),
    );
    this.#roots = rootsOf(ring, this.#links);
  }

  /** @param found by slot, a flag for each class that is in some choice; those that are set stay */
  gather(found: readonly (Uint8Array | null)[]): void {
    const { left, centre } = this.#ring;
    const given = this.#inOrder(left[centre] as Classes);
    for (let from = 0; from < given.length; from += atOnce) {
      const some = given.subarray(from, from + atOnce);
      const withSome = this.#ring.leftWith(some);
      if (withSome === null) continue;
      this.#give(some, withSome);
      for (const root of this.#roots) this.#asked &= this.#withAny(root);
      if (this.#asked === 0) continue;
      some.forEach((each, bit) => {
        if ((this.#asked >>> bit) & 1) (found[centre] as Uint8Array)[each] = 1;
      });
      this.#left.forEach((classes, slot) => {
        if (classes === null || slot === centre) return;
        const flags = found[slot] as Uint8Array;
        for (const each of classes) if (flags[each] === 0 && this.#withClass(slot, each, -1, this.#asked) !== 0) flags[each] = 1;
      });
    }
  }

  /** Classes of the centre that meet much the same stand together: those asked about at once are then near few others. */
  #inOrder(classes: Classes): Classes {
    const besides = this.#beside.flatMap(([first], slot) =>
      first === undefined ? [] : [{ first, classes: this.#ring.left[slot]?.length ?? 0 }],
    );
    const [widest] = besides.sort((p, q) => q.classes - p.classes);
    if (widest === undefined) return classes;
    const { of } = widest.first.other;
    return classes.slice().sort((p, q) => (of[p] as number) - (of[q] as number) || p - q);
  }

  /** From now on these classes of the centre are asked about, which leave of all slots what is given with them. */
  #give(some: Classes, left: readonly (Classes | null)[]): void {
    this.#round += 1;
    this.#left = left;
    left.forEach((classes, slot) => {
      const leftIn = this.#leftIn[slot] ?? null;
      if (classes !== null && leftIn !== null) for (const each of classes) leftIn[each] = this.#round;
    });
    this.#asked = some.length === atOnce ? -1 : (1 << some.length) - 1;
    for (const beside of this.#beside) {
      for (const { other, with: met } of beside) {
        met.fill(0);
        some.forEach((each, bit) => {
          const row = other.of[each] as number;
          for (let run = other.firstRun[row] as number; run < (other.firstRun[row + 1] as number); run += 1) {
            const to = other.runs[run * 2 + 1] as number;
            for (let at = other.runs[run * 2] as number; at < to; at += 1) met[at] = (met[at] as number) | (1 << bit);
          }
        });
      }
    }
    for (const links of this.#links) for (const link of links) this.#countNear(link);
  }

  /** Most of what a class meets across is beside no class asked about, and then whole runs of it are. */
  #countNear({ to, across: [{ other }], near }: Link): void {
    if (near === null) return;
    near.fill(0);
    for (const each of this.#left[to] as Classes)
      if (this.#beside[to]?.every(({ own, with: met }) => met[own.of[each] as number] !== 0)) near[(other.of[each] as number) + 1] = 1;
    for (let row = 1; row < near.length; row += 1) near[row] = (near[row] as number) + (near[row - 1] as number);
  }

  /** With which of the asked classes any class of a slot has a choice. */
  #withAny(slot: number): number {
    let missing = this.#asked;
    for (const each of this.#left[slot] as Classes) {
      missing &= ~this.#withClass(slot, each, -1, missing);
      if (missing === 0) break;
    }
    return this.#asked & ~missing;
  }

  /** With which of the asked classes a class goes and has partners in each direction but one: of the wanted every one, of the others some. */
  #withClass(slot: number, each: number, but: number, wanted: number): number {
    let all = this.#asked;
    for (const { own, with: met } of this.#beside[slot] as Beside) all &= met[own.of[each] as number] as number;
    const links = this.#links[slot] as readonly Link[];
    for (let i = 0; (all & wanted) !== 0 && i < links.length; i += 1) {
      const link = links[i] as Link;
      if (link.to !== but) all &= this.#withPartner(slot, link, each, all & wanted);
    }
    // What is not wanted was held against every direction only where this came to the end of them.
    return (all & wanted) === 0 ? 0 : all;
  }

  /** The same of the partners a class has in one direction. */
  #withPartner(slot: number, link: Link, each: number, wanted: number): number {
    const [{ own, other }, ...others] = link.across;
    const row = own.of[each] as number;
    const place = others.length === 0 ? row : each;
    if (link.round[place] !== this.#round) {
      link.round[place] = this.#round;
      link.with[place] = 0;
      link.known[place] = 0;
    }
    let all = link.with[place] as number;
    let missing = wanted & ~(all | (link.known[place] as number));
    if (missing === 0) return all;
    const leftIn = this.#leftIn[link.to] as Int32Array;
    const { near } = link;
    search: for (let run = own.firstRun[row] as number; run < (own.firstRun[row + 1] as number); run += 1) {
      const [first, end] = [own.runs[run * 2] as number, own.runs[run * 2 + 1] as number];
      if (near !== null && near[first] === near[end]) continue;
      for (let at = other.first[first] as number; at < (other.first[end] as number); at += 1) {
        const partner = other.classes[at] as number;
        if (leftIn[partner] !== this.#round || (others.length > 0 && !others.every((pairing) => meets(pairing, each, partner)))) continue;
        all |= this.#withClass(link.to, partner, slot, missing);
        missing &= ~all;
        if (missing === 0) break search;
      }
    }
    link.known[place] = (link.known[place] as number) | wanted;
    link.with[place] = all;
    return all;
  }
}

const meets = ({ own, other }: Across, each: number, partner: number): boolean =>
  rowMeets(own, own.of[each] as number, other.of[partner] as number);

const acrossTo = ({ pairings }: Ring, slot: number, to: number): Across[] =>
  pairings.flatMap((pairing) => {
    if (!((pairing.a === slot && pairing.b === to) || (pairing.b === slot && pairing.a === to))) return [];
    const [own, other] = sides(pairing, slot);
    return [{ own, other }];
  });

const linksOf = (ring: Ring, slot: number): Link[] =>
  ring.counts.flatMap((_, to): Link[] => {
    const [first, ...others] = to === ring.centre ? [] : acrossTo(ring, slot, to);
    if (first === undefined) return [];
    const near = acrossTo(ring, to, ring.centre).length === 0 ? null : new Int32Array(first.other.first.length);
    const places = others.length === 0 ? first.own.first.length - 1 : (ring.counts[slot] as number);
    return [
      { to, across: [first, ...others], with: new Int32Array(places), known: new Int32Array(places), round: new Int32Array(places), near },
    ];
  });

/** How many runs a row has: where there are few, little is to be looked at and much is set aside. */
const width = ({ across: [{ own }] }: Link): number => own.runs.length / own.firstRun.length;

const rootsOf = ({ left, centre }: Ring, links: readonly (readonly Link[])[]): number[] => {
  const seen = new Set<number>();
  const see = (slot: number): void => {
    if (seen.has(slot)) return;
    seen.add(slot);
    for (const { to } of links[slot] as readonly Link[]) see(to);
  };
  return left.flatMap((classes, slot) => {
    if (classes === null || slot === centre || seen.has(slot)) return [];
    see(slot);
    return [slot];
  });
};
