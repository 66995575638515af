import { useState } from 'react';
import type { SwapsTold, SwapTold } from '../../electron/bridge/verdict-calls.ts';
import type { Name, Sheet } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Pager } from '../look/Pager.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { sayWhole } from '../values/figures.ts';
import { SwapParts } from './SwapParts.tsx';
import { sayMinutes } from './sayMinutes.ts';

const firstShown = 4;
const aPage = 25;

interface Props {
  readonly swaps: SwapsTold;
  readonly name: Name;
  /** What was asked about: the sheet without what does not matter. */
  readonly sheet: Sheet;
}

/** S1: the slots whose parts, if replaced, would bring the name back; cheapest first. A nameplate is nothing to exchange. */
export function Swaps({ swaps, name, sheet }: Props) {
  const [all, setAll] = useState(false);
  const [from, setFrom] = usePlaceIn({ name: name.id, sheet });
  const cut = swaps.ways > swaps.found.length;
  const page = latest(useAsk('verdict.swaps', all && cut ? { sheet, name: name.id, from, count: aPage } : null));
  if (swaps.ways === 0) {
    return (
      <p className="swaps-none">No exchange of listed parts{swaps.complete ? '' : ' among those looked at'} would bring this name back.</p>
    );
  }
  const shown = all ? (page?.rows ?? swaps.found) : swaps.found.slice(0, firstShown);
  return (
    <div className="swaps">
      <h3 className="head">What would bring the name back</h3>
      <ul>
        {shown.map((set) => (
          <Swap key={set.slots.join()} set={set} name={name} sheet={sheet} />
        ))}
      </ul>
      {swaps.ways > firstShown && (
        <button type="button" className="button plain no-print" onClick={() => setAll(!all)}>
          {all ? 'Fewer' : `All ${sayWhole(swaps.ways)} ways`}
        </button>
      )}
      {all && cut && <Pager what="ways" from={from} size={aPage} count={swaps.ways} onFrom={setFrom} />}
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

function Swap({ set, name, sheet }: { readonly set: SwapTold; readonly name: Name; readonly sheet: Sheet }) {
  const words = useWords();
  const [open, setOpen] = useState(false);
  return (
    <li className="swap">
      <details onToggle={(event) => setOpen(event.currentTarget.open)}>
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
        {open && (
          <dl className="swap-parts">
            {set.parts.map((choice) => (
              <div key={choice.slot}>
                <dt>
                  <TermsText text={words.slotName(choice.slot)} />
                </dt>
                <dd>
                  <SwapParts sheet={sheet} name={name.id} slots={set.slots} choice={choice} what={words.slotName(choice.slot)} />
                </dd>
              </div>
            ))}
          </dl>
        )}
      </details>
    </li>
  );
}
