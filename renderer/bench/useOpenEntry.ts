import { useCallback } from 'react';
import type { FeatureId, SlotId } from '../../reasoner/index.ts';
import { goTo } from '../route/route.ts';
import { useBenchActions } from './BenchContext.ts';

/**
 * Opens the editor for a feature of a slot, on the unit's screen, with the focus in it: for a suggested check, a finding, or
 * anything else that wants one thing looked at. An editor already open elsewhere closes, and what was half typed there goes.
 */
export function useOpenEntry(): (slot: SlotId, feature: FeatureId) => void {
  const { openEntry } = useBenchActions();
  return useCallback(
    (slot, feature) => {
      goTo({ screen: 'unit' });
      openEntry({ slot, feature });
    },
    [openEntry],
  );
}
