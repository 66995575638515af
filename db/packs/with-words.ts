import { type CellKey, type Cells, stepsOf } from '../atlas/cell.ts';
import { everyList, listsAndParts } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import { packOf } from '../changes/cells-of.ts';
import { type DisputedWord, type Holds, movedWords, noWords, type OwnWord, type OwnWords, wordsOver } from '../changes/own-words.ts';
import type { WordDispute } from '../edits/seen.ts';
import type { Asked } from '../read/asked.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { State } from './pack-rows.ts';
import { readAgain } from './read-again.ts';

export type { WordDispute } from '../edits/seen.ts';

/** What is to be where the shop said otherwise than the edition that is held, and the newer one says a third thing. */
export interface Disputing {
  /** Whose word is to hold: of all, or cell by cell. Without it such an edition is refused. */
  readonly holds?: Holds | ((disputed: WordDispute) => Holds | null);
  /** Nothing is written, so that disputes are told and none of them refused. */
  readonly onlyTold?: boolean;
}

/**
 * A pack that is to be loaded, with the shop's words over it: those on the edition that is held, and those on shared entries of other packs.
 * Throws `pack-disputed`, and `pack-invalid` where the two do not go together.
 * @param said what the pack says itself
 */
export const withWords = async (
  pack: Pack,
  said: Cells,
  was: State | null,
  wordsOfOthers: readonly OwnWords[],
  others: readonly Pack[],
  options: Asked & Disputing,
): Promise<State & { readonly disputes: readonly WordDispute[] }> => {
  const undecided: WordDispute[] = [];
  const decide = (disputed: DisputedWord): Holds => {
    const shown = shownDispute(pack.head.id, disputed);
    const { holds } = options;
    const found = typeof holds === 'function' ? holds(shown) : (holds ?? null);
    if (found === null) undecided.push(shown);
    return found ?? 'shop';
  };
  const moved = was === null ? { words: noWords, disputes: [] } : movedWords(was.cells, was.words, said, decide);
  if (undecided.length > 0 && options.onlyTold !== true) throw new TroubleError(disputedTrouble(pack, undecided));
  const words = new Map([...sharedWords(said, wordsOfOthers), ...moved.words]);
  const disputes = moved.disputes.map((disputed) => shownDispute(pack.head.id, disputed));
  if (words.size === 0) return { pack, cells: said, words, disputes };
  const cells = wordsOver(said, words);
  const over = packOf(pack.head.id, cells);
  const again = await readAgain(over, others, options);
  if ('shapes' in again) {
    const { list, id, field, found, expected } = again.shapes[0];
    throw new TroubleError(
      trouble(
        'pack-invalid',
        `pack ${pack.head.id}`,
        `This edition and what the shop says of it do not go together: ${list} “${id}”${field === null ? '' : `, ${field}`} would say ${found}, expected ${expected}. Let the pack's word hold there. Nothing was changed.`,
      ),
    );
  }
  if (!again.sound.ok)
    throw new TroubleError({
      ...again.sound.trouble,
      sentence: `This edition and what the shop says of it do not go together. ${again.sound.trouble.sentence}`,
    });
  return { pack: again.sound.value.pack, cells, words, disputes };
};

const shared = new Set<string>(everyList.filter(({ shared }) => shared).map(({ name }) => name));

/** The shop's words on entries that this pack shares with others and says as they do. */
const sharedWords = (said: Cells, wordsOfOthers: readonly OwnWords[]): OwnWords => {
  const words = new Map<CellKey, OwnWord>();
  for (const of of wordsOfOthers)
    for (const [key, word] of of) {
      const [list, id] = stepsOf(key);
      if (!shared.has(list) || !said.has(`${list}/${id}` as CellKey)) continue;
      words.set(key, { own: word.own, said: said.get(key) ?? null });
    }
  return words;
};

const shownDispute = (pack: string, { key, own, before, after }: DisputedWord): WordDispute => ({
  pack,
  cell: key,
  ...cellSeen(key),
  own: own?.is ?? null,
  before: before?.is ?? null,
  after: after?.is ?? null,
});

const ones = new Map<string, string>(listsAndParts.map(({ name, one }) => [name, one]));

const disputedTrouble = ({ head }: Pack, disputes: readonly WordDispute[]) => {
  const [first] = disputes as readonly [WordDispute];
  const sentence = ({ list, id, field, line }: WordDispute): string =>
    `${[`${ones.get(list) ?? list} “${id}”`, field, line].filter((step) => step !== null).join(', ')}: the shop says otherwise than the edition that is held, and this edition says a third thing.`;
  const many = disputes.length === 1 ? 'one thing' : `${disputes.length} things`;
  return {
    ...trouble(
      'pack-disputed',
      `pack ${head.id}`,
      `The pack "${head.id}" was not loaded: of ${many} the shop says otherwise than the edition that is held, and edition ${head.edition} says a third thing, so somebody must decide whose word holds. The first: ${sentence(first)} Nothing was changed.`,
    ),
    all: disputes.map((each) => trouble('pack-disputed', each.cell, sentence(each))),
  };
};
