import { useEffect } from 'react';
import type { Feature, Sheet } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import type { Edit } from '../bench/sheetEdits.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { ahead } from '../bridge/ahead.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { type Draft, type Entry, entryOf } from './draft.ts';
import { confirmedAsBefore } from './slips.ts';

/**
 * While an entry is typed the desk is asked at each key what would follow from it as it stands (B7), so that its verdict is there with the Enter that takes it. Nothing of it
 * is shown or kept before that.
 */
export function useJudgedAhead(feature: Feature, draft: Draft, unit: LengthUnit, edited: (entry: Entry) => Edit): void {
  const { sheet } = useBench();
  const changes = useAtlasChanges();
  // biome-ignore lint/correctness/useExhaustiveDependencies: `edited` is made anew at every render, of the sheet and the feature.
  useEffect(() => {
    if (sheet.kind !== 'found') return;
    const next = sheetWith(sheet, feature, draft, unit, edited);
    if (next !== null) ahead.ask('verdict.of', { sheet: whatMatters(next) }, changes);
  }, [sheet, feature, draft, unit, changes]);
}

/** The sheet with the entry as it stands in the editor; null while it is none yet. */
const sheetWith = (sheet: Sheet, feature: Feature, draft: Draft, unit: LengthUnit, edited: (entry: Entry) => Edit): Sheet | null => {
  const read = entryOf(feature, draft, unit);
  if (!read.ok) return null;
  return edited(confirmedAsBefore(sheet, feature.id, read.value))(sheet);
};
