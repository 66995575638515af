import { useCallback, useMemo, useState } from 'react';
import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { Assumptions, Sheet } from '../../reasoner/index.ts';
import { type Asked, useAsk } from '../bridge/useAsk.ts';
import { recall, remember } from '../look/preference.ts';
import { assumedFrom } from './assumed.ts';

/** The odds of the unit on the bench: what is asked, what came of it, and what they take for granted. */
export interface OddsHeld {
  readonly asked: Asked<CallResult<'odds.of'>, CallArgs<'odds.of'>>;
  /** What further questions about the same sheet are asked with. */
  readonly question: CallArgs<'odds.of'>;
  /** The shop's own assumptions; null for those the program starts from. */
  readonly own: Assumptions | null;
  assume(own: Assumptions | null): void;
}

/** After the verdict has been asked for, ms: the verdict is what typing waits for, if anything does. */
const settle = 140;
const keptAs = 'odds assumptions';

/** Asked anew on each entry of a found unit. A planned build is chosen, not guessed at. */
export function useOdds(matters: Sheet): OddsHeld {
  const [own, setOwn] = useState<Assumptions | null>(() => assumedFrom(recall(keptAs)));
  const question = useMemo(() => ({ sheet: matters, ...(own === null ? {} : { assumptions: own }) }), [matters, own]);
  const asked = useAsk('odds.of', matters.kind === 'found' ? question : null, settle);
  const assume = useCallback((next: Assumptions | null) => {
    remember(keptAs, next === null ? null : JSON.stringify(next));
    setOwn(next);
  }, []);
  return { asked, question, own, assume };
}
