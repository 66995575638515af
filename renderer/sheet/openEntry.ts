import { useCallback } from 'react';
import type { FeatureId, SlotId } from '../../reasoner/index.ts';
import { goTo } from '../route/route.ts';
import { useBench } from './UnitContext.ts';

/** The place of one entry on the sheet: the editor is open there. */
export interface EntryPlace {
  readonly slot: SlotId;
  readonly feature: FeatureId;
}

/**
 * Opens the editor for a feature of a slot, on the unit's screen, with the focus in it: for a suggested check, a finding, or
 * anything else that wants one thing looked at. An editor already open elsewhere closes, and what was half typed there goes.
 */
export function useOpenEntry(): (slot: SlotId, feature: FeatureId) => void {
  const { openEntry } = useBench();
  return useCallback(
    (slot, feature) => {
      goTo({ screen: 'unit' });
      openEntry({ slot, feature });
    },
    [openEntry],
  );
}
