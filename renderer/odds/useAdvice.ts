import { useEffect, useMemo, useRef, useState } from 'react';
import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { Advice, NextCheck } from '../../reasoner/index.ts';
import { type Asked, useAsk, useSettled } from '../bridge/useAsk.ts';

/** A check alone, before it is known what it would settle. */
export type CheckAlone = NextCheck & {
  readonly kind: 'look' | 'read again';
  readonly settles: null;
  readonly towards: null;
  readonly doubt: null;
};

export interface AdviceShown {
  /** Null: nothing is known yet. */
  readonly said: Advice | CheckAlone | null;
  /** Whether what is said is still of the sheet before the last entry. */
  readonly older: boolean;
  /** Whether what is to be said of the sheet is still on its way. */
  readonly waiting: boolean;
}

/** The odds are here first; then verdicts are asked for, which nothing waits for, ms. */
const settle = 40;
/** So long the advice of the older sheet stays, lest a check be shown for a moment where one may stop, ms. */
const patience = 600;

/** What to do next with the sheet the odds are of. Until that is known the advice of the sheet before stays; where it takes long, the check the odds put first is said alone. */
export function useAdvice(odds: Asked<CallResult<'odds.of'>, CallArgs<'odds.of'>>, question: CallArgs<'odds.of'>): AdviceShown {
  const given = odds.state === 'answered' && odds.value.odds.kind === 'odds' ? odds : null;
  const asked = useAsk('odds.advice', given?.args ?? null, settle);
  const settled = useSettled(asked, given === null ? null : question);
  const last = useRef<Advice | null>(null);
  useEffect(() => {
    if (settled !== null) last.current = settled.advice;
  }, [settled]);
  const failed = asked.state === 'trouble';
  const late = useLate(settled === null, question);
  const next = given?.value.next ?? null;
  const before = last.current;
  const troubled = odds.state === 'trouble';
  return useMemo(() => {
    if (settled !== null) return { said: settled.advice, older: false, waiting: false };
    const alone: CheckAlone | null =
      next === null
        ? null
        : { ...next, kind: next.check.again.length > 0 ? 'read again' : 'look', settles: null, towards: null, doubt: null };
    if (given !== null && (failed || late || before === null)) return { said: alone, older: false, waiting: !failed };
    return { said: before, older: before !== null, waiting: !troubled };
  }, [settled, given, next, failed, late, before, troubled]);
}

/** Whether something has been wanting for long, of one question. */
function useLate(wanting: boolean, question: unknown): boolean {
  const [late, setLate] = useState<unknown>(null);
  useEffect(() => {
    if (!wanting) return;
    const timer = setTimeout(() => setLate(question), patience);
    return () => clearTimeout(timer);
  }, [wanting, question]);
  return wanting && late === question;
}
