import './odds.css';
import { useCallback, useState } from 'react';
import type { Check, Doubt, FeatureId, Sheet, Unseen } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withoutUnseen } from '../bench/sheetEdits.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayBriefly, sayTime } from './oddsWords.ts';
import { ReadTheSame } from './ReadTheSame.tsx';
import { Refusals } from './Refusals.tsx';
import type { AdviceShown } from './useAdvice.ts';
import { useNextCheck } from './useNextCheck.ts';
import type { OddsHeld } from './useOdds.ts';
import { useRefuse } from './useRefuse.ts';

/**
 * Beside the honest name, whatever else is read: what to look at next, how long it takes and what it would settle, the way to enter it and the ways to refuse it; or that one may stop. Its place is kept while the
 * answer is on its way, and of an older sheet it is dimmed.
 */
export function NextCheck({ odds: held, sheet }: { readonly odds: OddsHeld; readonly sheet: Sheet }) {
  const refuse = useRefuse(held);
  const [refused, setRefused] = useState<FeatureId | null>(null);
  const onRefuse = useCallback(
    (check: Check, why: Unseen['why']) => {
      refuse(check, why);
      setRefused(check.feature);
    },
    [refuse],
  );
  const { asked } = held;
  const { said, older, waiting } = held.advice;
  const first = asked.state === 'answered' && asked.value.odds.kind === 'odds' ? asked.value.odds.checks[0] : undefined;
  const offered = said !== null && 'check' in said ? said.check : undefined;
  const { enter } = useNextCheck(held, older || said === null ? first : offered, onRefuse);
  // Said where the verdict stands, and asked where the entry does.
  if (asked.state === 'trouble' && asked.trouble.code === 'sheet-doubted') return null;
  if (asked.state === 'trouble') return <TroubleNote lead="What to look at next could not be worked out." trouble={asked.trouble} />;
  return (
    <section
      className="next-check no-print"
      aria-labelledby="next-check-title"
      aria-busy={waiting}
      data-state={waiting ? 'waiting' : 'answered'}
      data-older={older}
    >
      <div className="next-said" aria-live="polite">
        <Said said={said} />
      </div>
      <div className="next-do">
        {offered !== undefined && (
          <>
            <button type="button" className="button main" aria-keyshortcuts="Control+Enter" onClick={enter}>
              Enter it{' '}
              <span className="keys" aria-hidden="true">
                Ctrl Enter
              </span>
            </button>
            <ReadTheSame check={offered} sheet={sheet} waiting={waiting} />
            <RefuseIt check={offered} waiting={waiting} onRefuse={(why) => onRefuse(offered, why)} />
          </>
        )}
        <JustRefused sheet={sheet} refused={refused} onAgain={() => setRefused(null)} />
      </div>
    </section>
  );
}

/** Two lines at most: what to do, and what it would settle. */
function Said({ said }: { readonly said: AdviceShown['said'] }) {
  const head = (
    <h2 id="next-check-title" className="head">
      Next check
    </h2>
  );
  if (said === null)
    return (
      <p className="next-line">
        {head} <span className="soft">Working it out…</span>
      </p>
    );
  if (!('check' in said)) {
    const [lead, ...rest] = said.sentence.split(': ');
    return (
      <>
        <div className="next-line stop-line" data-advice={said.kind}>
          {head}{' '}
          {said.kind === 'stop' ? (
            <span>
              <b>{lead}</b>: {rest.join(': ')}
            </span>
          ) : (
            <span>{said.sentence}</span>
          )}
        </div>
        {said.doubt !== null && <DoubtLine doubt={said.doubt} />}
      </>
    );
  }
  return (
    <>
      <div className="next-line" data-advice={said.kind}>
        {head}{' '}
        <b className="next-how" title={said.how} data-feature={said.check.feature}>
          <TermsText text={said.brief} />
        </b>{' '}
        <span className="check-time">{sayTime(said.check)}</span>
      </div>
      <p className="next-settles" title={said.settles ?? undefined}>
        {said.settles === null ? '…' : sayBriefly(said.settles)}
      </p>
      {said.doubt !== null && <DoubtLine doubt={said.doubt} />}
    </>
  );
}

function DoubtLine({ doubt: { slot, feature, sentence } }: { readonly doubt: Doubt }) {
  const openEntry = useOpenEntry();
  return (
    <p className="next-doubt">
      {sentence}{' '}
      <button type="button" className="button plain" onClick={() => openEntry(slot, feature)}>
        Read it again
      </button>
    </p>
  );
}

function RefuseIt(props: { readonly check: Check; readonly waiting: boolean; onRefuse(why: Unseen['why']): void }) {
  const words = useWords();
  return <Refusals {...props} feature={words.feature(props.check.feature)} shortcut />;
}

/** What was set aside last, and the way back. */
function JustRefused({ sheet, refused, onAgain }: { readonly sheet: Sheet; readonly refused: FeatureId | null; onAgain(): void }) {
  const words = useWords();
  const { edit } = useBenchActions();
  const just = sheet.unseen?.find(({ feature }) => feature === refused);
  return (
    <p className="refused small" role="status">
      {just !== undefined && (
        <>
          Set aside: {words.featureName(just.feature)} of the {words.slotName(just.slot)}, {just.why}.{' '}
          <button
            type="button"
            className="button plain"
            onClick={() => {
              edit(withoutUnseen(just.feature));
              onAgain();
            }}
          >
            Ask for it again
          </button>
        </>
      )}
    </p>
  );
}
