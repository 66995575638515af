import { useState } from 'react';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMinutes } from './oddsWords.ts';
import { PlanTree } from './PlanTree.tsx';
import type { OddsHeld } from './useOdds.ts';

/** The plan takes the desk longer than a verdict does: it is asked for on request, and after typing has rested so long, ms. */
const settle = 400;

/** The whole course of checks, each next one chosen by the reading before it. */
export function WholePlan({ held }: { readonly held: OddsHeld }) {
  const [open, setOpen] = useState(false);
  const asked = useAsk('odds.plan', open ? held.question : null, settle);
  const plan = latest(asked);
  return (
    <section
      className="block plan"
      id="next-plan"
      tabIndex={-1}
      aria-labelledby="next-plan-title"
      aria-busy={asked.state === 'waiting'}
      data-state={asked.state}
    >
      <div className="block-head">
        <h2 id="next-plan-title" className="head">
          The whole plan
        </h2>
        <button type="button" className="button plain no-print" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Put the plan away' : 'Work out the plan'}
        </button>
      </div>
      {open && asked.state === 'trouble' && <TroubleNote lead="The plan could not be worked out." trouble={asked.trouble} />}
      {open && plan === null && asked.state === 'waiting' && <p className="soft">Working out the plan…</p>}
      {open && plan?.kind === 'end' && plan.because === 'settled' && <p>Nothing is left to plan: the name is all but settled.</p>}
      {open && plan !== null && !(plan.kind === 'end' && plan.because === 'settled') && (
        <>
          {plan.kind === 'check' && (
            <p className="small soft">
              About {sayMinutes(plan.expectedMinutes)} to the end on average, strip-down included. After each reading the check that tells
              most for the minute comes next; that is a good course, not always the quickest.
            </p>
          )}
          <PlanTree plan={plan} />
        </>
      )}
    </section>
  );
}
