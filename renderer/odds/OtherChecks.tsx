import { useState } from 'react';
import type { Check, FeatureId, Odds, Sheet, Verdict } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withoutUnseen } from '../bench/sheetEdits.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { Outcomes } from './Outcomes.tsx';
import { sayMinutes, saySettles } from './oddsWords.ts';
import { ReadTheSame } from './ReadTheSame.tsx';
import { Refusals } from './Refusals.tsx';
import type { OddsHeld } from './useOdds.ts';
import { useRefuse } from './useRefuse.ts';

const firstShown = 8;

interface Props {
  readonly odds: Odds;
  readonly held: OddsHeld;
  readonly verdict: Verdict;
  readonly sheet: Sheet;
}

/** The checks after the next one, in order of what they tell for the minute; one at a time opens to what it would do. Then those set aside. */
export function OtherChecks({ odds, held, verdict, sheet }: Props) {
  const words = useWords();
  const [open, setOpen] = useState<FeatureId | null>(null);
  const [limit, setLimit] = useState(firstShown);
  const others = odds.checks.slice(1);
  return (
    <section className="block" id="next-others" tabIndex={-1} aria-labelledby="next-others-title">
      <h2 id="next-others-title" className="head">
        Other checks, in order
      </h2>
      {others.length === 0 && <p className="soft">No other check would tell anything more.</p>}
      {others.length > 0 && (
        <ol className="checks" aria-label="Other checks">
          <li className="check-line checks-head" aria-hidden="true">
            <span>Check</span>
            <span>settles</span>
            <span>takes</span>
            <span>strip-down first</span>
          </li>
          {others.slice(0, limit).map((check) => {
            const name = `${check.again.length > 0 ? 'Read again: ' : ''}${words.featureName(check.feature)}, ${words.slotName(check.slot)}`;
            const opened = open === check.feature;
            return (
              <li key={check.feature}>
                <button type="button" className="check-line" aria-expanded={opened} onClick={() => setOpen(opened ? null : check.feature)}>
                  <span>
                    {name}
                    <Said>: settles </Said>
                  </span>
                  <span>
                    {saySettles(check.drop, odds.bits)}
                    <Said>, takes </Said>
                  </span>
                  <span>
                    {sayMinutes(check.minutes)}
                    <Said>, strip-down first </Said>
                  </span>
                  <span>{check.openingMinutes > 0 ? sayMinutes(check.openingMinutes) : 'none'}</span>
                </button>
                {opened && <OneCheck check={check} odds={odds} held={held} verdict={verdict} sheet={sheet} />}
              </li>
            );
          })}
        </ol>
      )}
      {others.length > limit && (
        <button type="button" className="button plain no-print" onClick={() => setLimit(limit + 20)}>
          {others.length - limit} more
        </button>
      )}
      {sheet.unseen !== undefined && <SetAside sheet={sheet} />}
    </section>
  );
}

/** The head of a column, for readers who hear a line alone. */
const Said = ({ children }: { readonly children: string }) => <span className="unseen">{children}</span>;

/** One of the other checks, opened: how it is taken, what it would do, and the ways to answer it now. */
function OneCheck({ check, odds, held, verdict, sheet }: { readonly check: Check } & Props) {
  const words = useWords();
  const openEntry = useOpenEntry();
  const refuse = useRefuse(held);
  const asked = useAsk('odds.check', { ...held.question, feature: check.feature });
  const effects = latest(asked);
  return (
    <div className="one-check" data-state={asked.state} aria-busy={asked.state === 'waiting'}>
      {asked.state === 'trouble' && <TroubleNote lead="What it would do could not be worked out." trouble={asked.trouble} />}
      {effects === null && asked.state === 'waiting' && <p className="soft">Weighing…</p>}
      {effects !== null && <p>{effects.how}</p>}
      <div className="next-do no-print">
        <button type="button" className="button" onClick={() => openEntry(check.slot, check.feature)}>
          Enter it
        </button>
        <ReadTheSame check={check} sheet={sheet} waiting={held.asked.state !== 'answered'} />
        <Refusals
          check={check}
          feature={words.feature(check.feature)}
          waiting={held.asked.state !== 'answered'}
          onRefuse={(why) => refuse(check, why)}
        />
      </div>
      {effects !== null && <Outcomes effects={effects} verdict={verdict} bits={odds.bits} />}
    </div>
  );
}

function SetAside({ sheet }: { readonly sheet: Sheet }) {
  const words = useWords();
  const { edit } = useBenchActions();
  return (
    <>
      <h3 className="head set-aside-head">Set aside</h3>
      <ul className="set-aside" aria-label="Checks set aside">
        {sheet.unseen?.map(({ slot, feature, why }) => (
          <li key={feature}>
            {words.featureName(feature)}, {words.slotName(slot)}: <i>{why}</i>{' '}
            <button
              type="button"
              className="button plain no-print"
              aria-label={`Ask for it again: ${words.featureName(feature)}, ${words.slotName(slot)}`}
              onClick={() => edit(withoutUnseen(feature))}
            >
              Ask for it again
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
