import type { Sheet, Verdict } from '../../reasoner/index.ts';
import { latest } from '../bridge/useAsk.ts';
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
  const answer = latest(held.asked);
  if (answer === null) return <p className="soft">Weighing…</p>;
  const { odds, next } = answer;
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
          <>
            <p className="print-only">
              Next check: {next.how} <CheckTime check={next.check} />
            </p>
            <Outcomes effects={next} verdict={verdict} bits={odds.bits} />
          </>
        )}
      </section>
      <MostLikely odds={odds} held={held} absent={new Set(sheet.absent)} />
      <OtherChecks odds={odds} held={held} verdict={verdict} sheet={sheet} />
      <WholePlan held={held} />
    </>
  );
}
