import './odds.css';
import { useCallback, useState } from 'react';
import type { Check, FeatureId, Odds, Sheet, Unseen } from '../../reasoner/index.ts';
import { latest } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { withoutUnseen } from '../sheet/sheetEdits.ts';
import { useBench } from '../sheet/UnitContext.ts';
import { Chance } from './Chance.tsx';
import { CheckTime } from './CheckTime.tsx';
import { sayAlike } from './oddsWords.ts';
import { Refusals } from './Refusals.tsx';
import { useNextCheck } from './useNextCheck.ts';
import type { OddsHeld } from './useOdds.ts';
import { useRefuse } from './useRefuse.ts';

/** Under the honest name, whatever else is read: what to look at next, the way to enter it, and the ways to refuse it. */
export function NextCheck({ odds: held, sheet }: { readonly odds: OddsHeld; readonly sheet: Sheet }) {
  const words = useWords();
  const { edit } = useBench();
  const refuse = useRefuse(held);
  const [refused, setRefused] = useState<FeatureId | null>(null);
  const onRefuse = useCallback(
    (check: Check, why: Unseen['why']) => {
      refuse(check, why);
      setRefused(check.feature);
    },
    [refuse],
  );
  const { enter } = useNextCheck(held, onRefuse);
  const { asked } = held;
  const answer = latest(asked);
  // Said where the verdict stands, and asked where the entry does.
  if (asked.state === 'trouble' && asked.trouble.code === 'sheet-doubted') return null;
  if (asked.state === 'trouble') return <TroubleNote lead="What to look at next could not be worked out." trouble={asked.trouble} />;
  const odds = answer?.odds.kind === 'odds' ? answer.odds : null;
  const next = answer?.next ?? null;
  const justRefused = sheet.unseen?.find(({ feature }) => feature === refused);
  return (
    <section
      className="next-check no-print"
      aria-labelledby="next-check-title"
      aria-busy={asked.state === 'waiting'}
      data-state={asked.state}
    >
      {odds !== null && <LikelyLine odds={odds} />}
      <div className="next-line">
        <h2 id="next-check-title" className="head">
          Next check
        </h2>
        {next !== null && <CheckTime check={next.check} />}
      </div>
      {odds === null && <p className="soft">Weighing…</p>}
      {odds !== null && next === null && <p className="next-how">Nothing still to be looked at would tell more about the name.</p>}
      {next !== null && (
        <>
          <p className="next-how" aria-live="polite">
            <TermsText text={next.how} />
          </p>
          <div className="next-do">
            <button type="button" className="button main" aria-keyshortcuts="Control+Enter" onClick={enter}>
              Enter it{' '}
              <span className="keys" aria-hidden="true">
                Ctrl Enter
              </span>
            </button>
            <Refusals
              check={next.check}
              feature={words.feature(next.check.feature)}
              waiting={asked.state !== 'answered'}
              shortcut
              onRefuse={(why) => onRefuse(next.check, why)}
            />
          </div>
        </>
      )}
      <p className="refused small" role="status">
        {justRefused !== undefined && (
          <>
            Set aside: {words.featureName(justRefused.feature)} of the {words.slotName(justRefused.slot)}, {justRefused.why}.{' '}
            <button
              type="button"
              className="button plain"
              onClick={() => {
                edit(withoutUnseen(justRefused.feature));
                setRefused(null);
              }}
            >
              Ask for it again
            </button>
          </>
        )}
      </p>
    </section>
  );
}

/** The likeliest name; where several are as likely, all of them or how many. */
function LikelyLine({ odds: { names, namesAlike } }: { readonly odds: Odds }) {
  const [first] = names;
  if (first === undefined) return null;
  const alone = namesAlike === 1;
  return (
    <p className={alone ? 'likely-line' : 'likely-line is-alike'}>
      <span className="head">{alone ? 'Most likely' : `${namesAlike} equally likely`}</span>{' '}
      <span className="likely-text">
        {sayAlike(
          names.map(({ text }) => text),
          namesAlike,
        )}
      </span>{' '}
      {!alone && <span className="soft">each</span>} <Chance chance={first.chance} />
      <span className="soft likely-aside">odds, no verdict</span>
    </p>
  );
}
