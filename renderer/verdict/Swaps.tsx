import { useState } from 'react';
import type { Name, SwapSets } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { Replaced } from './Replaced.tsx';
import { sayMinutes } from './sayMinutes.ts';

const firstShown = 4;

/** S1: the slots whose parts, if replaced, would bring the name back; cheapest first. A nameplate is nothing to exchange. */
export function Swaps({ swaps, name }: { readonly swaps: SwapSets; readonly name: Name }) {
  const words = useWords();
  const [all, setAll] = useState(false);
  if (swaps.found.length === 0) {
    return (
      <p className="swaps-none">No exchange of listed parts{swaps.complete ? '' : ' among those looked at'} would bring this name back.</p>
    );
  }
  const shown = all ? swaps.found : swaps.found.slice(0, firstShown);
  return (
    <div className="swaps">
      <h3 className="head">What would bring the name back</h3>
      <ul>
        {shown.map((set) => (
          <li key={set.slots.join()} className="swap">
            <details>
              <summary>
                <span className="swap-what">
                  {[
                    ...(set.parts.length > 0 ? [`Replace ${list(set.parts.map(({ slot }) => `the ${words.slotName(slot)}`))}`] : []),
                    ...set.plates.map((slot) => `only the maker can confirm or issue a ${words.slotName(slot)}`),
                  ].join('; ')}
                </span>
                <span className="swap-cost">{set.parts.length > 0 && sayMinutes(set)}</span>
                <span className="swap-then">
                  {set.leaves === 'ruled out' ? (
                    'not enough by itself'
                  ) : (
                    <>
                      then <StatusMark status={set.leaves} />
                    </>
                  )}
                </span>
              </summary>
              <dl className="swap-parts">
                {set.parts.map((choice) => (
                  <div key={choice.slot}>
                    <dt>
                      <TermsText text={words.slotName(choice.slot)} />
                    </dt>
                    <dd>
                      <Replaced choice={choice} />
                    </dd>
                  </div>
                ))}
              </dl>
            </details>
          </li>
        ))}
      </ul>
      {swaps.found.length > firstShown && (
        <button type="button" className="button plain no-print" onClick={() => setAll(!all)}>
          {all ? 'Fewer' : `All ${swaps.found.length} ways`}
        </button>
      )}
      <p className="small soft">
        {swaps.complete
          ? `These are all the smallest ways to bring back ${name.text}.`
          : 'The search stopped at its limit: there may be other ways.'}{' '}
        The minutes are for strip-down and exchange, each strip-down counted once; where every part listed needs work before it fits, for
        the least of that too. After any change to a part that turns, the rotor must be balanced again.
      </p>
    </div>
  );
}
