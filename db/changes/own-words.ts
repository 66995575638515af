import { type Cell, type CellKey, type Cells, keyOf, sameCell, sameSaid } from '../atlas/cell.ts';
import { entryOf } from './change.ts';

/** What the shop says of a cell of a pack's entry, and what the pack says of it; never the same. Null: nothing. */
export interface OwnWord {
  readonly own: Cell | null;
  readonly said: Cell | null;
}

/** Where the shop says otherwise than a pack. What is reasoned over is what the pack says, with these over it. */
export type OwnWords = ReadonlyMap<CellKey, OwnWord>;

export const noWords: OwnWords = new Map();

/** What a pack itself says, given what is reasoned over of it. */
export const saidUnder = (cells: Cells, words: OwnWords): Cells => put(cells, words, ({ said }) => said);

/** What is reasoned over of a pack, given what it says itself. */
export const wordsOver = (said: Cells, words: OwnWords): Cells => put(said, words, ({ own }) => own);

const put = (cells: Cells, words: OwnWords, of: (word: OwnWord) => Cell | null): Cells => {
  if (words.size === 0) return cells;
  const next = new Map(cells);
  for (const [key, word] of words) {
    const cell = of(word);
    if (cell === null) next.delete(key);
    else next.set(key, cell);
  }
  return next;
};

/** The words that lead from what a pack says to what is reasoned over of it: the inverse of both above. */
export const wordsBetween = (said: Cells, cells: Cells): OwnWords => {
  const words = new Map<CellKey, OwnWord>();
  for (const [key, own] of cells) {
    const is = said.get(key) ?? null;
    if (is === null || !sameCell(is, own)) words.set(key, { own, said: is });
  }
  for (const [key, is] of said) if (!cells.has(key)) words.set(key, { own: null, said: is });
  return words;
};

/** A cell where the shop said otherwise than a pack, and a newer edition of the pack says a third thing (H4). Where it is that an entry is there, it stands for the whole entry. */
export interface DisputedWord {
  readonly key: CellKey;
  readonly own: Cell | null;
  /** What the edition that is held says, and what the newer one does. */
  readonly before: Cell | null;
  readonly after: Cell | null;
}

/** Whose word is to hold where the two dispute. */
export type Holds = 'shop' | 'pack';

export interface MovedWords {
  /** As decided; where nobody did, the shop's holds. */
  readonly words: OwnWords;
  readonly disputes: readonly DisputedWord[];
}

/**
 * The shop's words as they are over a newer edition of the pack: those the pack says now itself are gone, those of what the pack says as before stay, all others are disputed.
 * An entry that the shop let go, and one that the pack lets go, is decided as one.
 * @param cells what is reasoned over today
 * @param next what the newer edition says
 */
export const movedWords = (cells: Cells, words: OwnWords, next: Cells, decide: (disputed: DisputedWord) => Holds): MovedWords => {
  const said = saidUnder(cells, words);
  const moved = new Map<CellKey, OwnWord>();
  const disputes: DisputedWord[] = [];
  const keep = (key: CellKey, own: Cell | null): void => {
    const is = next.get(key) ?? null;
    if (!sameCell(own, is)) moved.set(key, { own, said: is });
  };
  for (const [entry, of] of byEntry(words)) {
    const [was, is, held] = [said, next, cells].map((all) => all.get(entry) ?? null) as [Cell | null, Cell | null, Cell | null];
    if (was !== null && held === null) {
      // Let go by the shop, whole.
      if (is === null) continue;
      const lines = entriesCells(next, entry);
      const same = lines.every((key) => sameSaid(said.get(key)?.is ?? null, next.get(key)?.is ?? null)) && lines.length === of.length;
      const dispute = { key: entry, own: null, before: was, after: is };
      if (!same) disputes.push(dispute);
      if (same || decide(dispute) === 'shop') for (const key of lines) keep(key, null);
    } else if (was !== null && is === null && of.every(([, word]) => onlyMoved(word))) {
      // What the shop only put elsewhere goes with the pack.
    } else if (was !== null && is === null) {
      // Let go by the pack, whole.
      const dispute = { key: entry, own: held, before: was, after: null };
      disputes.push(dispute);
      if (decide(dispute) === 'shop') for (const key of entriesCells(cells, entry)) keep(key, cells.get(key) ?? null);
    } else {
      for (const [key, { own, said: before }] of of) {
        const after = next.get(key) ?? null;
        if (onlyMoved({ own, said: before })) {
          if (after !== null) keep(key, own?.at === undefined ? after : { is: after.is, at: own.at });
          continue;
        }
        const dispute = { key, own, before, after };
        const stands = sameSaid(before?.is ?? null, after?.is ?? null);
        const agreed = sameSaid(own?.is ?? null, after?.is ?? null);
        if (!stands && !agreed) disputes.push(dispute);
        if (!agreed && (stands || decide(dispute) === 'shop')) keep(key, own);
      }
    }
  }
  return { words: moved, disputes };
};

/** The shop says what the pack says, in another place among others. */
const onlyMoved = ({ own, said }: OwnWord): boolean => own !== null && said !== null && sameSaid(own.is, said.is);

const byEntry = (words: OwnWords): Map<CellKey, [CellKey, OwnWord][]> => {
  const found = new Map<CellKey, [CellKey, OwnWord][]>();
  for (const word of words) {
    const entry = entryOf(word[0]);
    found.set(entry, [...(found.get(entry) ?? []), word]);
  }
  return found;
};

/** The cells of one entry. */
const entriesCells = (cells: Cells, entry: CellKey): CellKey[] =>
  [...cells.keys()].filter((key) => key === entry || entryOf(key) === entry);

/** What a change of these words says beside what it alters in what is reasoned over: under `said`, what the pack itself says where the shop says otherwise. */
export const saidCells = (words: OwnWords): Cells =>
  new Map([...words].map(([key, { said }]) => [underOf(key), said === null ? { is: [] } : { ...said, is: [said.is] }]));

/** Whether a cell of a change says what a pack itself says, under the shop's word. */
export const isSaid = (key: CellKey): boolean => key.startsWith('said/');

/** Where a change says what a pack itself says of a cell. */
export const underOf = (key: CellKey): CellKey => keyOf('said', key);

/** The cell such a one speaks of. */
export const overOf = (key: CellKey): CellKey => key.slice('said/'.length) as CellKey;

/** What the pack says, of such a cell. */
export const saidBy = ({ is, at }: Cell): Cell | null => {
  const [said] = is as readonly Cell['is'][];
  return said === undefined ? null : at === undefined ? { is: said } : { is: said, at };
};

/** The words again, of cells as `saidCells` makes them and what is reasoned over. */
export const wordsIn = (cells: Cells): OwnWords => {
  const words = new Map<CellKey, OwnWord>();
  for (const [at, under] of cells) {
    if (!isSaid(at)) continue;
    const key = overOf(at);
    const own = cells.get(key) ?? null;
    const said = saidBy(under);
    if (!sameCell(own, said)) words.set(key, { own, said });
  }
  return words;
};
