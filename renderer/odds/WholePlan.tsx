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
    <details
      className="block next-fold plan"
      id="next-plan"
      aria-busy={asked.state === 'waiting'}
      data-state={asked.state}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h2 className="head">The whole plan</h2>
        <span className="soft small">each check chosen by the reading before it</span>
      </summary>
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
    </details>
  );
}
