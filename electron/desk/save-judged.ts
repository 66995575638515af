import type { SavedSheet } from '../../db/answers.ts';
import type { MadeAgainst, Outcome, Store } from '../../db/index.ts';
import type { Sheet } from '../../reasoner/index.ts';
import type { Reasoning } from './reasoning.ts';

/**
 * Judges a sheet and saves it with its verdict: no case is without one. When a pack is loaded between the two, it is judged again under
 * the new atlas.
 * @param madeAgainst the version it was made against; left out, what is there is written over (H5)
 * @param judgeCase holds the sheet against the atlas first, and says what it does not know of it
 */
export const saveJudged = async (
  store: Store,
  judgeCase: Reasoning['judgeCase'],
  sheet: Sheet,
  who: string,
  madeAgainst?: MadeAgainst,
): Promise<Outcome<SavedSheet>> => {
  const save = async (): Promise<Outcome<SavedSheet>> => {
    const verdict = await judgeCase({ sheet });
    if (!verdict.ok) return verdict;
    const checked = await store.sheets.check(sheet);
    return checked.ok ? store.sheets.save(checked.value, { verdict: verdict.value, who }, madeAgainst) : checked;
  };
  const saved = await save();
  return saved.ok || saved.trouble.code !== 'atlas-changed' ? saved : save();
};
