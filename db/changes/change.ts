import { type Cell, type CellKey, type Cells, keyOf, sameCell, sameSaid, stepsOf } from '../atlas/cell.ts';

/** What one cell said before and says after; null: nothing. */
export interface Altered {
  readonly before: Cell | null;
  readonly after: Cell | null;
}

/** The effect of a change (H2): every cell it alters and no other, in an order that says nothing. */
export type Effect = ReadonlyMap<CellKey, Altered>;

/** What leads from one state to the other. */
export const changeBetween = (held: Cells, next: Cells): Effect => {
  const effect = new Map<CellKey, Altered>();
  for (const [key, before] of held) {
    const after = next.get(key) ?? null;
    if (after === null || !sameCell(before, after)) effect.set(key, { before, after });
  }
  for (const [key, after] of next) if (!held.has(key)) effect.set(key, { before: null, after });
  return effect;
};

export const reverse = (effect: Effect): Effect =>
  new Map([...effect].map(([key, { before, after }]) => [key, { before: after, after: before }]));

/** The state after the change. Throws where a cell does not say what the change was made of: that change is to be rebased first. */
export const applyTo = (cells: Cells, effect: Effect): Cells => {
  const next = new Map(cells);
  for (const [key, { before, after }] of effect) {
    if (!sameCell(cells.get(key) ?? null, before)) throw new Error(`the cell ${key} does not say what the change was made of`);
    if (after === null) next.delete(key);
    else next.set(key, after);
  }
  return next;
};

/** A cell whose present value is neither what the change was made of nor what it would make of it (H4): somebody must decide. */
export interface Dispute extends Altered {
  readonly key: CellKey;
  readonly present: Cell | null;
}

export interface Rebased {
  /** What is left to be done: cells that say already what the change would make of them are no part of it, nor are disputed ones. */
  readonly effect: Effect;
  readonly disputes: readonly Dispute[];
}

/** A change as it is to be made after another one that was made of the same state. */
export const rebase = (effect: Effect, over: Effect): Rebased => {
  const said = [...over].flatMap(([key, { after }]) => (after === null ? [] : [key]));
  return moved(
    effect,
    (key, before) => {
      const altered = over.get(key);
      return altered === undefined ? before : altered.after;
    },
    said,
  );
};

/** A change as it is to be made of this state, whatever state it was made of. */
export const rebaseOnto = (effect: Effect, cells: Cells): Rebased => moved(effect, (key) => cells.get(key) ?? null, cells.keys());

/** What a cell says now, given what the change takes it to have said. */
type PresentOf = (key: CellKey, before: Cell | null) => Cell | null;

/** @param said every cell that may say something the change does not know of */
const moved = (effect: Effect, presentOf: PresentOf, said: Iterable<CellKey>): Rebased => {
  const left = new Map<CellKey, Altered>();
  const disputes: Dispute[] = [];
  const going = new Set<CellKey>();
  for (const [key, { before, after }] of effect) {
    const present = presentOf(key, before);
    if (after === null && key === entryOf(key)) going.add(key);
    const merged = merge(before, present, after);
    if (merged === disputed || (before === null && goneUnder(key, effect, presentOf))) disputes.push({ key, before, present, after });
    else if (!sameCell(merged, present)) left.set(key, { before: present, after: merged });
  }
  // Somebody has said more of an entry that the change takes away.
  if (going.size > 0) {
    for (const key of said) {
      if (effect.has(key) || !going.has(entryOf(key))) continue;
      const present = presentOf(key, null);
      if (present !== null) disputes.push({ key, before: null, present, after: null });
    }
  }
  return { effect: left, disputes };
};

/** The cell that says an entry is there, for a cell of it. What is no entry of a list is its own. */
export const entryOf = (key: CellKey): CellKey => {
  const [list, id] = stepsOf(key);
  return list === 'allowed' || list === 'said' ? key : keyOf(list, id);
};

/** Whether a new cell speaks of an entry that was there and is no more. */
const goneUnder = (key: CellKey, effect: Effect, presentOf: PresentOf): boolean => {
  const entry = entryOf(key);
  if (entry === key) return false;
  const made = effect.get(entry);
  return made?.before !== null && presentOf(entry, made?.before ?? there) === null;
};
/** An entry neither change says anything of. */
const there: Cell = { is: true };

const disputed = Symbol('disputed');

/**
 * What a cell comes to where one change made `present` of `before`, and another would make `after`. Of places only the order matters, so two of
 * them are no dispute: the lower one stays.
 */
const merge = (before: Cell | null, present: Cell | null, after: Cell | null): Cell | null | typeof disputed => {
  const [b, p, a] = [before?.is ?? null, present?.is ?? null, after?.is ?? null];
  const is = sameSaid(p, b) ? a : sameSaid(a, b) || sameSaid(a, p) ? p : disputed;
  if (is === disputed || is === null) return is;
  const at = placeOf(before?.at, present?.at, after?.at);
  return at === undefined ? { is } : { is, at };
};

const placeOf = (before: number | undefined, present: number | undefined, after: number | undefined): number | undefined => {
  if (present === before) return after;
  if (after === before || present === undefined || after === undefined) return present;
  return Math.min(present, after);
};
