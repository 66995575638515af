import { useCallback, useEffect, useMemo, useState } from 'react';
import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { Assumptions, Sheet } from '../../reasoner/index.ts';
import { type Asked, useAsk } from '../bridge/useAsk.ts';
import { onRemembered, recall, remember } from '../look/preference.ts';
import { assumedFrom, assumedTogether } from './assumed.ts';
import { type AdviceShown, useAdvice } from './useAdvice.ts';

/** The odds of the unit on the bench: what is asked, what came of it, and what they take for granted. */
export interface OddsHeld {
  readonly asked: Asked<CallResult<'odds.of'>, CallArgs<'odds.of'>>;
  /** What to do next, in one voice with the verdict. */
  readonly advice: AdviceShown;
  /** What further questions about the same sheet are asked with. */
  readonly question: CallArgs<'odds.of'>;
  /** The shop's own assumptions; null for those the program starts from. */
  readonly own: Assumptions | null;
  /** `shown`: the figures that stood here when `own` was made of them. */
  assume(own: Assumptions | null, shown: Assumptions): void;
}

/** After the verdict is in, ms: it is what typing waits for, if anything does, and is on the screen before anything else is worked out. */
const settle = 30;
const keptAs = 'odds assumptions';

/** Asked anew on each entry of a found unit, once its verdict is in. A planned build is chosen, not guessed at. */
export function useOdds(matters: Sheet, judged: boolean): OddsHeld {
  const [own, setOwn] = useState<Assumptions | null>(() => assumedFrom(recall(keptAs)));
  const question = useMemo(() => ({ sheet: matters, ...(own === null ? {} : { assumptions: own }) }), [matters, own]);
  const asked = useAsk('odds.of', matters.kind === 'found' ? question : null, judged ? settle : Number.POSITIVE_INFINITY);
  const advice = useAdvice(asked, question);
  // Windows of one browser share the figures: what another sets is shown here at once.
  useEffect(() => onRemembered(keptAs, () => setOwn(assumedFrom(recall(keptAs)))), []);
  const assume = useCallback((next: Assumptions | null, shown: Assumptions) => {
    const together = assumedTogether(shown, next, assumedFrom(recall(keptAs)));
    remember(keptAs, together === null ? null : JSON.stringify(together));
    setOwn(together);
  }, []);
  return useMemo(() => ({ asked, advice, question, own, assume }), [asked, advice, question, own, assume]);
}
