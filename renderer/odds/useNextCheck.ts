import { useCallback, useEffect, useRef, useState } from 'react';
import type { Check, Unseen } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { unanswered } from '../bridge/useAsk.ts';
import { answerAwaited, type Hold, holdKeys } from '../look/heldKeys.ts';
import { at } from '../look/landmarks.ts';
import { useWindowKey } from '../look/useWindowKey.ts';
import type { OddsHeld } from './useOdds.ts';

/**
 * Ctrl or Cmd with Enter opens the next check; from within an entry it takes the entry first. With Shift the next check is answered with
 * “could not see”. Where none is offered they do nothing.
 * `enter` does the same as the keys: while the odds of the last entry are still on their way, the sheet opens as soon as they are here, and what is typed until then
 * is held for it.
 */
export function useNextCheck(
  { asked, question }: OddsHeld,
  next: Check | undefined,
  onRefuse: (check: Check, why: Unseen['why']) => void,
): { enter(): void } {
  const { entering } = useBench();
  const openEntry = useOpenEntry();
  /** The next check was asked for before it was known; from which form, where one is being taken first. */
  const [wish, setWish] = useState<{ readonly form: HTMLFormElement | null } | null>(null);
  const hold = useRef<Hold | null>(null);
  const wishFor = useCallback((form: HTMLFormElement | null) => {
    setWish({ form });
    hold.current ??= holdKeys({
      for: 'entry',
      inSight: false,
      dropped: () => {
        hold.current = null;
        setWish(null);
      },
    });
  }, []);
  const drop = useCallback(() => {
    setWish(null);
    hold.current?.drop();
    hold.current = null;
  }, []);
  useEffect(() => drop, [drop]);

  useEffect(() => {
    // The form from which it was asked for is still there while the desk is asked about its entry.
    if (wish === null || wish.form?.isConnected === true) return;
    if (entering !== null || asked.state === 'trouble') drop();
    else if (!unanswered(asked, question)) {
      setWish(null);
      if (next === undefined) hold.current?.never();
      else openEntry(next.slot, next.feature);
      hold.current = null;
    }
  });

  const enter = (): void => {
    if (next !== undefined) openEntry(next.slot, next.feature);
    else if (asked.state === 'waiting') wishFor(null);
  };

  useWindowKey((event) => {
    if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey) || event.altKey || event.repeat) return;
    if (!(event.target instanceof Element) || event.target.closest('dialog') !== null) return;
    event.preventDefault();
    const form = event.target.closest<HTMLFormElement>(`form${at('own undo')}`);
    if (event.shiftKey) {
      if (form === null && next !== undefined) onRefuse(next, 'could not see');
    } else if (form === null) enter();
    else {
      wishFor(form);
      form.requestSubmit();
      // Refused at once, and to be mended there.
      if (form.isConnected && !answerAwaited()) drop();
    }
  });

  return { enter };
}
