import { type ReactNode, useState } from 'react';
import type { Check, FeatureId, Odds, Sheet } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withoutUnseen } from '../bench/sheetEdits.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayMinutes, saySettles } from './oddsWords.ts';

const firstShown = 8;

interface Props {
  readonly checks: readonly Check[];
  readonly odds: Odds;
  /** A check told in full. */
  one(check: Check): ReactNode;
}

/** Checks in order of what they tell for the minute; one at a time opens to what it would settle. */
export function OtherChecks({ checks, odds, one }: Props) {
  const words = useWords();
  const [open, setOpen] = useState<FeatureId | null>(null);
  const [limit, setLimit] = useState(firstShown);
  if (checks.length === 0) return <p className="soft">No other check would tell anything more.</p>;
  return (
    <>
      <ol className="checks" aria-label="Other checks">
        <li className="check-line checks-head" aria-hidden="true">
          <span>Check</span>
          <span>settles</span>
          <span>takes</span>
          <span>strip-down first</span>
        </li>
        {checks.slice(0, limit).map((check) => {
          const name = `${check.again.length > 0 ? 'Read again: ' : ''}${words.featureName(check.feature)}, ${words.slotName(check.slot)}`;
          const opened = open === check.feature;
          return (
            <li key={check.feature}>
              <button type="button" className="check-line" aria-expanded={opened} onClick={() => setOpen(opened ? null : check.feature)}>
                <span>
                  {name}
                  <Heard>: settles </Heard>
                </span>
                <span>
                  {saySettles(check.drop, odds.bits)}
                  <Heard>, takes </Heard>
                </span>
                <span>
                  {sayMinutes(check.minutes)}
                  <Heard>, strip-down first </Heard>
                </span>
                <span>{check.openingMinutes > 0 ? sayMinutes(check.openingMinutes) : 'none'}</span>
              </button>
              {opened && one(check)}
            </li>
          );
        })}
      </ol>
      {checks.length > limit && (
        <button type="button" className="button plain no-print" onClick={() => setLimit(limit + 20)}>
          {checks.length - limit} more
        </button>
      )}
    </>
  );
}

/** The head of a column, for readers who hear a line alone. */
const Heard = ({ children }: { readonly children: string }) => <span className="unseen">{children}</span>;

/** Checks that were answered with why they cannot be made, and the way back for each. */
export function SetAside({ sheet }: { readonly sheet: Sheet }) {
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
