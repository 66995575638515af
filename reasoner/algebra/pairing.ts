import { listedBy } from './lists.ts';

/**
 * How the classes of two slots meet across a joint. Classes that read alike there are one row of it, and a row meets runs of the other side's rows, so
 * that a joint takes the room of its rows however many pairs there are.
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

/** Classes of one slot, each once. */
export type Classes = Int32Array;

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
  const { first, of: classes } = listedBy(of, rows);
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

/** Classes of a slot in groups within which all are alike for a question. */
export interface Grouped {
  /** Of each class. */
  readonly group: Int32Array;
  /** By class, whether its group has to be asked about: what meets and need not on either side is kept. All have to where it is left out. */
  readonly asks?: Uint8Array;
}

/**
 * The pairing with those pairs of classes alone that are kept.
 * @param keep asked of a group of each side, where some of them meet and either has to be asked about
 */
export const narrowed = (
  { a, b, ofA, ofB }: Pairing,
  groupsA: Grouped,
  groupsB: Grouped,
  keep: (a: number, b: number) => boolean,
): Pairing => {
  const [one, other] = [finer(ofA, groupsA), finer(ofB, groupsB)];
  return { a, b, ofA: keptRuns(ofA, one, other, keep).side(one.of), ofB: keptRuns(ofB, other, one, (y, x) => keep(x, y)).side(other.of) };
};

/** Each two groups that `narrowed` would ask about, as often as it would. */
export const eachAsked = ({ ofA, ofB }: Pairing, groupsA: Grouped, groupsB: Grouped, visit: (a: number, b: number) => void): void => {
  keptRuns(ofA, finer(ofA, groupsA), finer(ofB, groupsB), (a, b) => {
    visit(a, b);
    return true;
  });
};

/** For each finer row of a side the finer rows across that it meets and that are kept. */
const keptRuns = ({ runs: met, firstRun }: Side, own: Finer, far: Finer, keep: (own: number, far: number) => boolean): Runs => {
  const runs = new Runs();
  for (let row = 0; row < own.group.length; row += 1) {
    const before = own.before[row] as number;
    const group = own.group[row] as number;
    for (let run = firstRun[before] as number; run < (firstRun[before + 1] as number); run += 1) {
      const [from, to] = [far.from[met[run * 2] as number] as number, far.from[met[run * 2 + 1] as number] as number];
      if (own.asks[row] === 1) {
        for (let other = from; other < to; other += 1) if (keep(group, far.group[other] as number)) runs.add(other, other + 1);
        continue;
      }
      let begun = from;
      for (let at = far.askedBefore[from] as number; at < (far.askedBefore[to] as number); at += 1) {
        const other = far.asking[at] as number;
        if (keep(group, far.group[other] as number)) continue;
        runs.add(begun, other);
        begun = other + 1;
      }
      runs.add(begun, to);
    }
    runs.next();
  }
  return runs;
};

/** The rows of a side told apart further, numbered in the order of its rows. */
interface Finer {
  /** Row of each class. */
  readonly of: Int32Array;
  /** Of each row the group its classes are of, and the row it was told from. */
  readonly group: readonly number[];
  readonly before: readonly number[];
  /** Where the rows made of each row of the side begin. */
  readonly from: Int32Array;
  /** Whether a row has to be asked about, those that have to, and how many of these come before each row. */
  readonly asks: Uint8Array;
  readonly asking: readonly number[];
  readonly askedBefore: Int32Array;
}

const finer = ({ of: row, classes, first }: Side, { group, asks: asksOf }: Grouped): Finer => {
  const of = new Int32Array(row.length);
  const [groups, before]: [number[], number[]] = [[], []];
  const asks: number[] = [];
  const from = new Int32Array(first.length);
  for (let at = 0; at + 1 < first.length; at += 1) {
    const numbers = new Map<number, number>();
    for (let i = first[at] as number; i < (first[at + 1] as number); i += 1) {
      const each = classes[i] as number;
      let number = numbers.get(group[each] as number);
      if (number === undefined) {
        number = groups.push(group[each] as number) - 1;
        before.push(at);
        asks.push(asksOf?.[each] ?? 1);
        numbers.set(group[each] as number, number);
      }
      of[each] = number;
    }
    from[at + 1] = groups.length;
  }
  const asking: number[] = [];
  const askedBefore = new Int32Array(groups.length + 1);
  asks.forEach((flag, at) => {
    if (flag === 1) asking.push(at);
    askedBefore[at + 1] = asking.length;
  });
  return { of, group: groups, before, from, asks: Uint8Array.from(asks), asking, askedBefore };
};

/** The side of a slot, and the other. */
export const sides = ({ a, ofA, ofB }: Pairing, slot: number): readonly [own: Side, other: Side] => (slot === a ? [ofA, ofB] : [ofB, ofA]);

/** Whether a row of this side meets a row of the other. */
export const rowMeets = ({ runs, firstRun }: Side, row: number, other: number): boolean => {
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
