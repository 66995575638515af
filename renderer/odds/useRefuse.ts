import { useCallback } from 'react';
import type { Check, Unseen } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withUnseen } from '../bench/sheetEdits.ts';
import type { OddsHeld } from './useOdds.ts';

/** Puts on the sheet why a check cannot be made, as one step of undo; it is not suggested again. */
export function useRefuse({ asked }: OddsHeld): (check: Check, why: Unseen['why']) => void {
  const { edit } = useBenchActions();
  return useCallback(
    ({ slot, feature }, why) => {
      // What is shown while the next order is on its way may already be answered.
      if (asked.state === 'answered' && asked.value.odds.kind === 'odds') edit(withUnseen({ slot, feature, why }));
    },
    [asked, edit],
  );
}
