import { Runs } from '../algebra/pairing.ts';
import type { Comparison, Difference } from '../fits/comparisons.ts';
import { nanometres } from '../fits/limits.ts';
import type { ReadTable } from './fact-tables.ts';
import { limitsIn, meetings, type Places, placesIn } from './meetings.ts';
import { refine } from './refine.ts';

/** One comparison of a joint with what the parts of its two slots are read to have there. */
export interface Asked {
  readonly comparison: Comparison;
  readonly tableA: ReadTable;
  readonly tableB: ReadTable;
  /** Whether the comparison's first feature is slot a's. */
  readonly aFirst: boolean;
}

/**
 * Which rows of one side of a joint go with which of the other, without meeting every two of them: rows of the other side stand in blocks that are alike in all that
 * is no size, and within a block in order of one size, so that what a size asks for is found by halving and is a few runs long. What else is compared is held against
 * each row so found. A joint fails where one comparison fails (F2).
 */
export class Between {
  readonly #differences: readonly Sized[];
  readonly #others: readonly Other[];
  /** Parts of each side alike in all that is no size. */
  readonly #kinds: Readonly<Record<'a' | 'b', Int32Array>>;

  constructor(asked: readonly Asked[]) {
    const others = asked.filter(({ comparison }) => comparison.kind !== 'difference');
    const kindsOf = (tables: readonly ReadTable[]): Int32Array => refine(tables[0]?.of.length ?? 0, tables).of;
    this.#kinds = { a: kindsOf(others.map(({ tableA }) => tableA)), b: kindsOf(others.map(({ tableB }) => tableB)) };
    this.#differences = asked.flatMap((each) =>
      each.comparison.kind === 'difference' ? [sized(each.comparison, each.tableA, each.tableB, each.aFirst)] : [],
    );
    this.#others = others.map(otherOf);
  }

  /** The order in which rows of a side should be numbered: by block, then by the size that is looked up first. @returns rows by place */
  order(side: 'a' | 'b', examples: ArrayLike<number>): Int32Array {
    const kinds = this.#kinds[side];
    const [size] = this.#differences.map((difference) => difference[side]);
    const low = (row: number): number => {
      if (size === undefined) return 0;
      const at = size.low[size.from[size.of[examples[row] as number] as number] as number] as number;
      return Number.isNaN(at) ? Number.POSITIVE_INFINITY : at;
    };
    const lows = Float64Array.from({ length: examples.length }, (_, row) => low(row));
    return Int32Array.from({ length: examples.length }, (_, row) => row).sort((p, q) => {
      const difference = (kinds[examples[p] as number] ?? 0) - (kinds[examples[q] as number] ?? 0);
      if (difference !== 0) return difference;
      const [one, other] = [lows[p] as number, lows[q] as number];
      return one < other ? -1 : one > other ? 1 : p - q;
    });
  }

  /**
   * For each row of one side the rows of the other it meets.
   * @param own a part of each row of this side; `others` of the other, numbered by `order`
   */
  runs(side: 'a' | 'b', own: ArrayLike<number>, others: ArrayLike<number>): Runs {
    const across = side === 'a' ? 'b' : 'a';
    const [main, ...rest] = this.#differences;
    const blocks = this.#blocks(across, others, main ?? null);
    const goes = new Map<number, Uint8Array>();
    const runs = new Runs();
    const stamps = new Int32Array(others.length).fill(-1);
    let found = new Int32Array(64);
    for (let row = 0; row < own.length; row += 1) {
      const part = own[row] as number;
      const open = this.#openBlocks(side, part, blocks, goes);
      let count = 0;
      for (let i = 0; i < blocks.length; i += 1) {
        if (open[i] === 0) continue;
        const block = blocks[i] as Block;
        if (main === undefined) {
          runs.add(block.from, block.to);
          continue;
        }
        const add = (other: number): void => {
          if (stamps[other] === row) return;
          const met = others[other] as number;
          if (!rest.every((difference) => difference.meet(side === 'a' ? part : met, side === 'a' ? met : part))) return;
          stamps[other] = row;
          if (count === found.length) found = widened(found);
          found[count] = other;
          count += 1;
        };
        main.near(side, part, block, add);
      }
      if (count > 0) {
        const rows = found.subarray(0, count).sort();
        for (let i = 0; i < count; i += 1) runs.add(rows[i] as number, (rows[i] as number) + 1);
      }
      runs.next();
    }
    return runs;
  }

  /** Rows alike in all that is no size. They stand together, for they are numbered so. */
  #blocks(side: 'a' | 'b', examples: ArrayLike<number>, main: Sized | null): Block[] {
    const blocks: Block[] = [];
    const kinds = this.#kinds[side];
    for (let from = 0; from < examples.length; ) {
      let to = from + 1;
      while (to < examples.length && kinds[examples[from] as number] === kinds[examples[to] as number]) to += 1;
      blocks.push({ from, to, example: examples[from] as number, sizes: main === null ? null : sizesIn(main[side], examples, from, to) });
      from = to;
    }
    return blocks;
  }

  /** Which blocks a part may meet by all that is no size; parts alike in that share the answer. */
  #openBlocks(side: 'a' | 'b', part: number, blocks: readonly Block[], known: Map<number, Uint8Array>): Uint8Array {
    const kind = this.#kinds[side][part] ?? 0;
    let open = known.get(kind);
    if (open === undefined) {
      open = Uint8Array.from(blocks, ({ example }) =>
        this.#others.every((meet) => (side === 'a' ? meet(part, example) : meet(example, part))) ? 1 : 0,
      );
      known.set(kind, open);
    }
    return open;
  }
}

/** What is no size, and whether two parts go together by it. */
type Other = (a: number, b: number) => boolean;

const otherOf = ({ comparison, tableA, tableB, aFirst }: Asked): Other => {
  const holds = meetings(comparison, tableA, tableB, aFirst).holds();
  const wide = tableB.distinct.length;
  return (a, b) => holds[(tableA.of[a] as number) * wide + (tableB.of[b] as number)] === 1;
};

/** The limits of every fact a feature may be read as, nanometres over `per`; `from` is where each reading's begin. What is not known is NaN. */
interface Sizes {
  readonly of: Int32Array;
  readonly from: Int32Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

interface Block {
  readonly from: number;
  readonly to: number;
  readonly example: number;
  readonly sizes: Ascending | null;
}

/** The facts of a block's rows by their lower limit; `most` is the greatest upper limit up to each. Those not known stand apart: they meet anything. */
interface Ascending {
  readonly row: Int32Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly most: Float64Array;
  readonly unknown: Int32Array;
}

const sizesIn = ({ of, from, low, high }: Sizes, examples: ArrayLike<number>, first: number, end: number): Ascending => {
  const entries: { row: number; at: number }[] = [];
  const unknown: number[] = [];
  for (let row = first; row < end; row += 1) {
    const reading = of[examples[row] as number] as number;
    for (let at = from[reading] as number; at < (from[reading + 1] as number); at += 1) {
      if (Number.isNaN(low[at])) unknown.push(row);
      else entries.push({ row, at });
    }
  }
  entries.sort((p, q) => (low[p.at] as number) - (low[q.at] as number));
  let greatest = Number.NEGATIVE_INFINITY;
  return {
    row: Int32Array.from(entries, ({ row }) => row),
    low: Float64Array.from(entries, ({ at }) => low[at] as number),
    high: Float64Array.from(entries, ({ at }) => high[at] as number),
    most: Float64Array.from(entries, ({ at }) => {
      greatest = Math.max(greatest, high[at] as number);
      return greatest;
    }),
    unknown: Int32Array.from(unknown),
  };
};

interface Sized {
  readonly a: Sizes;
  readonly b: Sizes;
  /** Whether the comparison need not fail between two parts, however each is read. */
  readonly meet: (a: number, b: number) => boolean;
  /** Rows of a block of the other side that a part of this side meets; a row may be told several times. */
  readonly near: (side: 'a' | 'b', part: number, block: Block, found: (row: number) => void) => void;
}

/**
 * Two sizes meet where (first − second)/per can lie within what is asked. Seen from either side that is: the other's lower limit is no higher than one bound, and its
 * upper limit no lower than another. The differences are formed as `neverWithin` forms them, to the last bit.
 */
const sized = ({ per, asked }: Difference, tableA: ReadTable, tableB: ReadTable, aFirst: boolean): Sized => {
  const [a, b] = [sizesOf(placesIn(tableA), per, tableA.of), sizesOf(placesIn(tableB), per, tableB.of)];
  const [least, greatest] = [nanometres(asked.least), nanometres(asked.greatest)];
  /** Whether one limit of either side keeps the two from meeting: of the comparison's first side and of its second. */
  const lowEnough = (isFirst: boolean, high: number, otherLow: number): boolean =>
    isFirst ? !(high - otherLow < least) : !(otherLow - high > greatest);
  const highEnough = (isFirst: boolean, low: number, otherHigh: number): boolean =>
    isFirst ? !(low - otherHigh > greatest) : !(otherHigh - low < least);
  const factsMeet = (atA: number, atB: number): boolean =>
    lowEnough(aFirst, a.high[atA] as number, b.low[atB] as number) && highEnough(aFirst, a.low[atA] as number, b.high[atB] as number);
  return {
    a,
    b,
    meet: (partA, partB) => {
      const [readA, readB] = [a.of[partA] as number, b.of[partB] as number];
      for (let atA = a.from[readA] as number; atA < (a.from[readA + 1] as number); atA += 1) {
        for (let atB = b.from[readB] as number; atB < (b.from[readB + 1] as number); atB += 1) if (factsMeet(atA, atB)) return true;
      }
      return false;
    },
    near: (side, part, block, found) => {
      const sizes = block.sizes as Ascending;
      const [own, isFirst] = side === 'a' ? [a, aFirst] : [b, !aFirst];
      const reading = own.of[part] as number;
      for (let at = own.from[reading] as number; at < (own.from[reading + 1] as number); at += 1) {
        const [low, high] = [own.low[at] as number, own.high[at] as number];
        if (Number.isNaN(low)) {
          for (let row = block.from; row < block.to; row += 1) found(row);
          return;
        }
        const end = firstWhere(sizes.low, (each) => !lowEnough(isFirst, high, each));
        const start = firstWhere(sizes.most, (each) => highEnough(isFirst, low, each));
        for (let i = start; i < end; i += 1) if (highEnough(isFirst, low, sizes.high[i] as number)) found(sizes.row[i] as number);
      }
      for (let i = 0; i < sizes.unknown.length; i += 1) found(sizes.unknown[i] as number);
    },
  };
};

const sizesOf = (places: Places, per: 1 | 2, of: Int32Array): Sizes => ({ of, from: places.from, ...limitsIn(places, per) });

/** The first place whose value is so; whatever comes after it is so too. */
const firstWhere = (values: Float64Array, so: (value: number) => boolean): number => {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (so(values[middle] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
};

const widened = (rows: Int32Array): Int32Array<ArrayBuffer> => {
  const wider = new Int32Array(rows.length * 2);
  wider.set(rows);
  return wider;
};
