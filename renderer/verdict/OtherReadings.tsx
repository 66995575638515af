import { useState } from 'react';
import type { ClaimTold } from '../../electron/bridge/verdict-calls.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Pager } from '../look/Pager.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { sayWhole } from '../values/figures.ts';
import { ReadingOfClaim } from './ReadingOfClaim.tsx';

const aPage = 10;

/** A4: of a name that many models bear, those of which the verdict does not tell at once: what became of each, and how the name reads. */
export function OtherReadings({ claim, sheet }: { readonly claim: ClaimTold; readonly sheet: Sheet }) {
  const told = claim.others.length;
  const rest = claim.readings - told;
  const [open, setOpen] = useState(false);
  const [from, setFrom] = usePlaceIn({ readings: claim.text, sheet });
  const asked = useAsk('verdict.readings', open && rest > 0 ? { sheet, from: told + from, count: aPage } : null);
  if (rest === 0) return null;
  return (
    <details className="reading" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {sayWhole(rest)} more {rest === 1 ? 'model bears' : 'models bear'} this name
      </summary>
      {asked.state === 'trouble' && <TroubleNote lead="They could not be listed." trouble={asked.trouble} />}
      <ul className="sentences">
        {latest(asked)?.rows.map((read) => (
          <li key={read.reading.model}>
            <TermsText text={read.sentences.join(' ')} />
            <ReadingOfClaim reading={read.reading} shared />
          </li>
        ))}
      </ul>
      <Pager what="models" from={from} size={aPage} count={rest} onFrom={setFrom} />
    </details>
  );
}
