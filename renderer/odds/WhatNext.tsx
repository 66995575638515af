import { type ReactNode, useState } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Check, Odds, Sheet } from '../../reasoner/index.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { CheckTime } from './CheckTime.tsx';
import { MostLikely } from './MostLikely.tsx';
import { OtherChecks, SetAside } from './OtherChecks.tsx';
import { Outcomes } from './Outcomes.tsx';
import { ReadTheSame } from './ReadTheSame.tsx';
import { Refusals } from './Refusals.tsx';
import type { AdviceShown } from './useAdvice.ts';
import type { OddsHeld } from './useOdds.ts';
import { useRefuse } from './useRefuse.ts';
import { WholePlan } from './WholePlan.tsx';

/** So many checks are told in full. */
const inFull = 4;

interface Props {
  readonly odds: OddsHeld;
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
}

/** What would settle the name: the next checks in the words of the counter, or that one may stop; folded below, how likely each name is, the other checks, the plan. */
export function WhatNext({ odds: held, verdict, sheet }: Props) {
  const given = latestGiven(held.asked);
  const { said } = held.advice;
  if (given === null) return <p className="soft">Working it out…</p>;
  const { odds } = given.value;
  if (odds.kind === 'contradiction') return null;
  const stops = said?.kind === 'stop' || said?.kind === 'nothing more';
  const first = said !== null && 'check' in said ? said.check : odds.checks[0];
  const full =
    stops || first === undefined ? [] : [first, ...odds.checks.filter(({ feature }) => feature !== first.feature)].slice(0, inFull);
  const others = odds.checks.filter((check) => !full.some(({ feature }) => feature === check.feature));
  return (
    <>
      <section className="block" id="next-checks" aria-labelledby="next-checks-title">
        <h2 id="next-checks-title" className="head">
          What to look at next
        </h2>
        <Why said={said} />
        {full.length > 0 && (
          <ol className="next-list" aria-label="Next checks">
            {full.map((check) => (
              <li key={check.feature}>
                <OneCheck check={check} odds={odds} held={held} question={given.args} verdict={verdict} sheet={sheet} />
              </li>
            ))}
          </ol>
        )}
        {sheet.unseen !== undefined && <SetAside sheet={sheet} />}
      </section>
      <Fold id="next-likely" head="How likely each is" aside="the odds, and what they take for granted">
        <MostLikely odds={odds} held={held} absent={new Set(sheet.absent)} />
      </Fold>
      <Fold id="next-others" head="Other checks, in order" aside={others.length === 0 ? 'none' : `${others.length}`}>
        <OtherChecks
          checks={others}
          odds={odds}
          one={(check) => <OneCheck check={check} odds={odds} held={held} question={given.args} verdict={verdict} sheet={sheet} />}
        />
      </Fold>
      <WholePlan held={held} />
    </>
  );
}

/** That one may stop, or what looking on could come to. */
function Why({ said }: { readonly said: AdviceShown['said'] }) {
  if (said === null) return null;
  if (!('check' in said)) return <p className="stop-line">{said.sentence}</p>;
  return said.towards === null ? null : <p className="soft">{said.towards}</p>;
}

function Fold(props: { readonly id: string; readonly head: string; readonly aside: string; readonly children: ReactNode }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="block next-fold" id={props.id} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h2 className="head">{props.head}</h2>
        <span className="soft small">{props.aside}</span>
      </summary>
      {open && props.children}
    </details>
  );
}

interface OneCheckProps extends Omit<Props, 'odds'> {
  readonly check: Check;
  readonly odds: Odds;
  readonly held: OddsHeld;
  /** What the check is part of the answer to: the sheet it was, not the one being typed. */
  readonly question: CallArgs<'odds.of'>;
}

/** One check: what to look at and where, how long it takes, what it would settle, the ways to answer it, and folded what each reading would do. */
function OneCheck({ check, odds, held, question, verdict, sheet }: OneCheckProps) {
  const words = useWords();
  const openEntry = useOpenEntry();
  const refuse = useRefuse(held);
  const asked = useAsk('odds.check', { ...question, feature: check.feature });
  const effects = latest(asked);
  const waiting = held.asked.state !== 'answered';
  return (
    <div className="one-check" data-state={asked.state} aria-busy={asked.state === 'waiting'} data-feature={check.feature}>
      <p className="one-head">
        <b>
          {effects === null ? `${words.featureName(check.feature)} of the ${words.slotName(check.slot)}` : <TermsText text={effects.how} />}
        </b>{' '}
        <CheckTime check={check} />
      </p>
      {asked.state === 'trouble' && <TroubleNote lead="What it would do could not be worked out." trouble={asked.trouble} />}
      <p className="one-settles">{effects?.settles ?? (asked.state === 'waiting' ? 'Working out what it would settle…' : '')}</p>
      <div className="next-do no-print">
        <button type="button" className="button" onClick={() => openEntry(check.slot, check.feature)}>
          Enter it
        </button>
        <ReadTheSame check={check} sheet={sheet} waiting={waiting} />
        <Refusals check={check} feature={words.feature(check.feature)} waiting={waiting} onRefuse={(why) => refuse(check, why)} />
      </div>
      {effects !== null && (
        <details className="each-reading">
          <summary>What each reading would do</summary>
          <Outcomes effects={effects} verdict={verdict} bits={odds.bits} />
        </details>
      )}
    </div>
  );
}
