import './odds.css';
import { useCallback, useState } from 'react';
import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { Check, FeatureId, NextCheck as Next, Odds, Sheet, Stopping, Unseen } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withoutUnseen } from '../bench/sheetEdits.ts';
import { type Given, latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { Chance } from './Chance.tsx';
import { CheckTime } from './CheckTime.tsx';
import { sayAlike, sayOdds } from './oddsWords.ts';
import { ReadTheSame } from './ReadTheSame.tsx';
import { Refusals } from './Refusals.tsx';
import { useNextCheck } from './useNextCheck.ts';
import type { OddsHeld } from './useOdds.ts';
import { useRefuse } from './useRefuse.ts';

/** Under the honest name, whatever else is read: what to look at next, the way to enter it, and the ways to refuse it. */
export function NextCheck({ odds: held, sheet }: { readonly odds: OddsHeld; readonly sheet: Sheet }) {
  const words = useWords();
  const { edit } = useBenchActions();
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
  const given = latestGiven(asked);
  const answer = given?.value ?? null;
  const stopping = useStopping(given);
  const odds = answer?.odds.kind === 'odds' ? answer.odds : null;
  const next = answer?.next ?? null;
  const offered = worthOffering(next, odds, stopping);
  const { enter } = useNextCheck(held, onRefuse, stopping?.kind === 'you may stop' && offered === null);
  // Said where the verdict stands, and asked where the entry does.
  if (asked.state === 'trouble' && asked.trouble.code === 'sheet-doubted') return null;
  if (asked.state === 'trouble') return <TroubleNote lead="What to look at next could not be worked out." trouble={asked.trouble} />;
  const justRefused = sheet.unseen?.find(({ feature }) => feature === refused);
  return (
    <section
      className="next-check no-print"
      aria-labelledby="next-check-title"
      aria-busy={asked.state === 'waiting'}
      data-state={asked.state}
    >
      {odds !== null && <LikelyLines odds={odds} />}
      <div className="next-line">
        <h2 id="next-check-title" className="head">
          Next check
        </h2>
        {offered !== null && <CheckTime check={offered.check} />}
      </div>
      {odds === null && <p className="soft">Weighing…</p>}
      <StopLine stopping={stopping} offered={offered} />
      {odds !== null && next === null && stopping?.kind === 'not settled' && (
        <p className="next-how">Nothing still to be looked at would tell more about the name.</p>
      )}
      {offered !== null && (
        <>
          <p className="next-how" aria-live="polite">
            <TermsText text={offered.how} />
          </p>
          <div className="next-do">
            <button type="button" className="button main" aria-keyshortcuts="Control+Enter" onClick={enter}>
              Enter it{' '}
              <span className="keys" aria-hidden="true">
                Ctrl Enter
              </span>
            </button>
            <ReadTheSame check={offered.check} sheet={sheet} waiting={asked.state !== 'answered'} />
            <Refusals
              check={offered.check}
              feature={words.feature(offered.check.feature)}
              waiting={asked.state !== 'answered'}
              shortcut
              onRefuse={(why) => onRefuse(offered.check, why)}
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

/** Where one may stop no look is offered any more; an entry that may well be wrong still is, to be read again. */
const worthOffering = (next: Next | null, odds: Odds | null, stopping: Stopping | null): Next | null => {
  if (next === null || odds === null || stopping?.kind !== 'you may stop') return next;
  const doubted = odds.ifWrong?.entries.find(({ observation }) => next.check.again.includes(observation));
  return doubted !== undefined && doubted.chance * (odds.ifWrong?.chance ?? 0) >= worthReadingAgain ? next : null;
};

/** An entry this likely to be wrong is worth another look before one stops. */
const worthReadingAgain = 0.1;

/** What is likeliest if every entry is right, where several are as likely all of them or how many; and, where it is well possible, that one is wrong. */
function LikelyLines({ odds: { ifRight, ifWrong } }: { readonly odds: Odds }) {
  const doubted = ifWrong !== null && ifWrong.chance >= worthSaying ? ifWrong.entries[0] : undefined;
  const [first] = ifRight?.names ?? [];
  const alone = ifRight?.namesAlike === 1;
  return (
    <>
      {ifRight !== null && first !== undefined && (
        <p className={alone ? 'likely-line' : 'likely-line is-alike'}>
          <span className="head">If every entry is right{alone ? '' : `, ${ifRight.namesAlike} equally likely`}</span>{' '}
          <span className="likely-text">
            {sayAlike(
              ifRight.names.map(({ text }) => text),
              ifRight.namesAlike,
            )}
          </span>{' '}
          {!alone && <span className="soft">each</span>} <Chance chance={first.chance} />
          <span className="soft likely-aside">odds, no verdict</span>
        </p>
      )}
      {ifRight === null && <p className="likely-line">Under what the odds take for granted the entries cannot all be right.</p>}
      {doubted !== undefined && ifWrong !== null && (
        <p className="likely-line is-wrong">
          <span className="head">If an entry is wrong</span> <span className="chance">{sayOdds(ifWrong.chance)}</span>{' '}
          <span className="likely-text">most likely {doubted.text}</span>
        </p>
      )}
    </>
  );
}

/** That an entry is wrong is said above the next check where it is at least this likely; the page below says it always. */
const worthSaying = 0.2;

/** Whether looking on could still change the honest name or the claim, in a sentence; where the check shown has no part in that, the one that has. */
function StopLine({ stopping, offered }: { readonly stopping: Stopping | null; readonly offered: Next | null }) {
  if (stopping === null) return null;
  const [lead, ...rest] = stopping.sentence.split(': ');
  return (
    <p className={stopping.kind === 'you may stop' ? 'stop-line' : 'stop-line soft'} data-stop={stopping.kind.replaceAll(' ', '-')}>
      {stopping.kind === 'you may stop' ? (
        <>
          <b>{lead}:</b> {rest.join(': ')}
        </>
      ) : (
        stopping.sentence
      )}
      {stopping.kind === 'you may stop' && offered !== null && ' One entry is worth reading again first.'}
      {stopping.kind === 'go on' && offered?.check.feature !== stopping.feature && ` For that: ${stopping.how}`}
    </p>
  );
}

/** After the odds are here, ms: verdicts are asked for, which nothing waits for. */
const settle = 120;

/** Whether one may stop looking, asked for the sheet the odds are of; null while it is not known. */
function useStopping(given: Given<CallResult<'odds.of'>, CallArgs<'odds.of'>> | null): Stopping | null {
  const found = given !== null && given.value.odds.kind === 'odds';
  return latest(useAsk('odds.stop', found ? given.args : null, settle));
}
