/** What is said: plain JSON, never null. Fields of objects come in the order of their schema. */
export type Said = string | number | boolean | readonly unknown[] | Readonly<Record<string, unknown>>;

/** One thing said of one thing (H1). */
export interface Cell {
  readonly is: Said;
  /**
   * Of what stands in an order, its place there. Only the order of places says anything, and there is room between two of them, so that what comes
   * between moves nothing else.
   */
  readonly at?: number;
}

/**
 * Which one thing is said of which one thing, as steps from the atlas down:
 * - list, entry: that the entry is there (`true`), and its place
 * - list, entry, field: a whole value: a name, a grammar, a joint's rules, trade names
 * - list, entry, field, line: one line of a list with keys: a fact of a part, the price of one, a number pattern
 * - `allowed`, model, part: the slot and role; `sheets`, id: a sample; `pack`, field: a word of the pack's head
 * A field that says nothing has no cell.
 */
export type Steps = readonly [string, string, ...string[]];

/** A cell as it is written down: in the journal, and of the shop's words. */
export type KeptCell = readonly [is: Said, at?: number] | null;
export const keptCell = (cell: Cell | null): KeptCell => (cell === null ? null : cell.at === undefined ? [cell.is] : [cell.is, cell.at]);
export const cellKept = (kept: KeptCell): Cell | null =>
  kept === null ? null : kept[1] === undefined ? { is: kept[0] } : { is: kept[0], at: kept[1] };

/** Steps as one text. Ids hold no `/`, and neither do fields. */
export type CellKey = string & { readonly cellKey: unique symbol };

export const keyOf = (...steps: Steps): CellKey => steps.join('/') as CellKey;
export const stepsOf = (key: CellKey): Steps => key.split('/') as unknown as Steps;

/** All that one origin says, cell by cell. */
export type Cells = ReadonlyMap<CellKey, Cell>;

/** Two things said are the same when they are one text as JSON. */
export const sameSaid = (a: Said | null, b: Said | null): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

export const sameCell = (a: Cell | null, b: Cell | null): boolean =>
  a === b || (a !== null && b !== null && a.at === b.at && sameSaid(a.is, b.is));
