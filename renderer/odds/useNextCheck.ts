import { useCallback, useEffect, useState } from 'react';
import type { Check, Unseen } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { at } from '../look/landmarks.ts';
import type { OddsHeld } from './useOdds.ts';

/**
 * Ctrl or Cmd with Enter opens the next check; from within an entry it takes the entry first. With Shift the next check is answered with
 * “could not see”. Where no check is offered since one may stop, `stopped`, they do nothing.
 * `enter` does the same as the keys: while the odds of the last entry are still on their way, the sheet opens as soon as they are here.
 */
export function useNextCheck(
  { asked }: OddsHeld,
  onRefuse: (check: Check, why: Unseen['why']) => void,
  stopped: boolean,
): { enter(): void } {
  const { entering } = useBench();
  const openEntry = useOpenEntry();
  const odds = asked.state === 'answered' && asked.value.odds.kind === 'odds' ? asked.value.odds : null;
  const next = stopped ? undefined : odds?.checks[0];
  /** Where the question stood when the next check was asked for too early. */
  const [wished, wish] = useState<OddsHeld['asked'] | null>(null);

  useEffect(() => {
    if (wished === null) return;
    if (entering !== null || asked.state === 'trouble') wish(null);
    else if (asked !== wished && asked.state === 'answered') {
      wish(null);
      if (next !== undefined) openEntry(next.slot, next.feature);
    }
  }, [wished, entering, asked, next, openEntry]);

  const enter = useCallback(() => {
    if (next !== undefined) openEntry(next.slot, next.feature);
    else if (asked.state === 'waiting') wish(asked);
  }, [next, asked, openEntry]);

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Control' || event.key === 'Meta' || event.key === 'Shift') return;
      if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey) || event.altKey || event.repeat) return wish(null);
      if (!(event.target instanceof Element) || event.target.closest('dialog') !== null) return;
      event.preventDefault();
      const form = event.target.closest<HTMLFormElement>(`form${at('own undo')}`);
      if (event.shiftKey) {
        if (form === null && next !== undefined) onRefuse(next, 'could not see');
      } else if (form === null) enter();
      else {
        wish(asked);
        form.requestSubmit();
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [asked, next, enter, onRefuse]);

  return { enter };
}
