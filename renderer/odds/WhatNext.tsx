import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { NextCheck, Sheet, Verdict } from '../../reasoner/index.ts';
import { latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { CheckTime } from './CheckTime.tsx';
import { MostLikely } from './MostLikely.tsx';
import { OtherChecks } from './OtherChecks.tsx';
import { Outcomes } from './Outcomes.tsx';
import type { OddsHeld } from './useOdds.ts';
import { WholePlan } from './WholePlan.tsx';

/** Sections of the page, for the way through it. */
export const nextSections = [
  ['next-readings', 'Readings'],
  ['next-likely', 'Most likely'],
  ['next-others', 'Other checks'],
  ['next-plan', 'Plan'],
] as const;

/** What would settle the name: the next check with what each reading would do, the odds, the other checks, the plan. */
export function WhatNext({ odds: held, verdict, sheet }: { readonly odds: OddsHeld; readonly verdict: Verdict; readonly sheet: Sheet }) {
  const given = latestGiven(held.asked);
  if (given === null) return <p className="soft">Weighing…</p>;
  const { odds, next } = given.value;
  if (odds.kind === 'contradiction') return null;
  return (
    <>
      <section className="block" id="next-readings" tabIndex={-1} aria-labelledby="next-readings-title">
        <h2 id="next-readings-title" className="head">
          What each reading would do
        </h2>
        {next === null ? (
          <p className="soft">Nothing still to be looked at would tell more about the name.</p>
        ) : (
          <NextReadings next={next} question={given.args} verdict={verdict} bits={odds.bits} />
        )}
      </section>
      <MostLikely odds={odds} held={held} absent={new Set(sheet.absent)} />
      <OtherChecks odds={odds} held={held} verdict={verdict} sheet={sheet} />
      <WholePlan held={held} />
    </>
  );
}

interface NextReadingsProps {
  readonly next: NextCheck;
  /** What the next check is the answer to: the sheet it was, not the one being typed. */
  readonly question: CallArgs<'odds.of'>;
  readonly verdict: Verdict;
  readonly bits: number;
}

/** What the readings of the next check would do, asked for once the check is known. The last ones stay until the new ones are here. */
function NextReadings({ next, question, verdict, bits }: NextReadingsProps) {
  const asked = useAsk('odds.check', { ...question, feature: next.check.feature });
  const effects = latest(asked);
  return (
    <div className="next-readings" data-state={asked.state} aria-busy={asked.state === 'waiting'}>
      <p className="print-only">
        Next check: {next.how} <CheckTime check={next.check} />
      </p>
      {asked.state === 'trouble' && <TroubleNote lead="What it would do could not be worked out." trouble={asked.trouble} />}
      {effects === null && asked.state === 'waiting' && <p className="soft">Weighing…</p>}
      {effects !== null && <Outcomes effects={effects} verdict={verdict} bits={bits} />}
    </div>
  );
}
