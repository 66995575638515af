import { type Classes, type Pairing, type Side, sides } from './pairing.ts';

/*
 * The step everything else is made of: of some classes of one slot, those that meet any of some classes of another. It is taken a thousand times for one verdict, with a handful of classes
 * against thousands or thousands against thousands, and costs what the smaller of the two tells.
 */

/** Marks on rows, made once and used again: a row is marked in the round whose number it bears. */
const scratch = {
  marks: new Int32Array(1024),
  ends: new Int32Array(1024),
  counts: new Int32Array(1024),
  kept: new Int32Array(1024),
  round: 0,
};

const roomFor = (rows: number, classes: number): void => {
  if (scratch.marks.length <= rows) {
    scratch.marks = new Int32Array(rows * 2);
    scratch.ends = new Int32Array(rows * 2);
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
export const keep = (counts: readonly number[], lists: readonly (Classes | null)[]): void =>
  lists.forEach((classes, slot) => {
    if (classes !== null && classes.length >= longList) flagsOf(classes, counts[slot] as number);
  });

/** Which of a slot's classes are in a list, kept with the list. */
export const flagsOf = (classes: Classes, count: number): Uint8Array => {
  let flags = lasting.get(classes);
  if (flags === undefined) {
    flags = new Uint8Array(count);
    for (let i = 0; i < classes.length; i += 1) flags[classes[i] as number] = 1;
    lasting.set(classes, flags);
  }
  return flags;
};

/** Those of a list that are flagged, in the order they had; the list itself where all are. */
export const those = (own: Classes, flags: Uint8Array): Classes => {
  const kept = new Int32Array(own.length);
  let length = 0;
  for (let i = 0; i < own.length; i += 1) {
    kept[length] = own[i] as number;
    length += flags[own[i] as number] as number;
  }
  return length === own.length ? own : kept.slice(0, length);
};

/** A shorter list is soon gone through. */
const longList = 64;

/** Those of `own`, classes of `slot`, that meet some of the others, in any order; `own` itself where all do. */
export const revise = (pairing: Pairing, slot: number, own: Classes, others: Classes): Classes => {
  if (own.length >= longList && others.length * 8 < own.length) {
    const flags = lasting.get(own);
    if (flags !== undefined) {
      const reached = among(flags, own, pairing, slot, others);
      if (reached !== null) return reached;
    }
  }
  return thinned(pairing, slot, own, others);
};

/** As `revise` narrows. */
export type Revise = typeof revise;

/** Lists of fewer classes together are narrowed sooner than looked for. */
const worthRemembering = 128;
/** So many classes are remembered, 16 MiB of them. */
const mostRemembered = 2 ** 22;

/** The same for a question that asks of the same lists over and over: each narrowing is made once, so that what is made of the same lists is the same list too. */
export const remembersNarrowing = (): Revise => {
  const known = new Map<Classes, Map<Side, Map<Classes, Classes>>>();
  let remembered = 0;
  return (pairing, slot, own, others) => {
    if (own.length + others.length < worthRemembering) return revise(pairing, slot, own, others);
    const [side] = sides(pairing, slot);
    const bySide = known.get(own) ?? new Map<Side, Map<Classes, Classes>>();
    const byOthers = bySide.get(side) ?? new Map<Classes, Classes>();
    const before = byOthers.get(others);
    if (before !== undefined) return before;
    const found = revise(pairing, slot, own, others);
    if (remembered > mostRemembered) {
      known.clear();
      remembered = 0;
    }
    known.set(own, bySide.set(side, byOthers.set(others, found)));
    remembered += found === own ? 1 : found.length;
    return found;
  };
};

/** The same found from what the others meet; null where that is not much less than there is. */
const among = (flags: Uint8Array, own: Classes, pairing: Pairing, slot: number, others: Classes): Classes | null => {
  const [side, other] = sides(pairing, slot);
  const most = own.length >> 2;
  roomFor(side.first.length, own.length);
  const { marks, ends, kept } = scratch;
  scratch.round += 1;
  const { round } = scratch;
  let [length, met] = [0, 0];
  for (let i = 0; i < others.length; i += 1) {
    const from = other.of[others[i] as number] as number;
    for (let run = other.firstRun[from] as number; run < (other.firstRun[from + 1] as number); run += 1) {
      const to = other.runs[run * 2 + 1] as number;
      for (let row = other.runs[run * 2] as number; row < to; row += 1) {
        if (marks[row] === round) {
          // Runs lie over one another: what follows is marked up to the end of the run that marked this.
          row = (ends[row] as number) - 1;
          continue;
        }
        marks[row] = round;
        ends[row] = to;
        met += (side.first[row + 1] as number) - (side.first[row] as number);
        if (met > most) return null;
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
export const thinned = (pairing: Pairing, slot: number, own: Classes, others: Classes): Classes => {
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
