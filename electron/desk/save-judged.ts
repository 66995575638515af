import type { SheetSummary } from '../../db/answers.ts';
import type { Outcome, Store } from '../../db/index.ts';
import { type CompiledAtlas, judgeCase, type Sheet } from '../../reasoner/index.ts';

/**
 * Judges a sheet and saves it with its verdict: no case is without one. When a pack is loaded between the two, it is judged again under
 * the new atlas.
 */
export const saveJudged = async (
  store: Store,
  atlasNow: () => Promise<CompiledAtlas>,
  sheet: Sheet,
  who: string,
): Promise<Outcome<SheetSummary>> => {
  const checked = await store.sheets.check(sheet);
  if (!checked.ok) return checked;
  const save = async () => store.sheets.save(checked.value, { verdict: judgeCase(await atlasNow(), checked.value), who });
  const saved = await save();
  return saved.ok || saved.trouble.code !== 'atlas-changed' ? saved : save();
};
