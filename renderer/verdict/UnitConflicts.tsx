import { useMemo, useState } from 'react';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { ConflictPanel } from '../graph/ConflictPanel.tsx';

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  /** Reasons against a name are drawn above; those of the unit with itself are then drawn when asked for, so that one graph is in sight. */
  readonly beside: boolean;
}

/** Conflicts of the unit with itself: whatever it is called, some part is unlisted or some entry is wrong. */
export function UnitConflicts({ verdict, sheet, beside }: Props) {
  const words = useWords();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const [asked, setAsked] = useState(false);
  if (verdict.unit.found.length === 0) return null;
  const doubtful = verdict.slots.filter((slot) => slot.doubtful).map((slot) => words.slotName(slot.slot));
  const shown = !beside || asked;
  return (
    <section className="block" aria-labelledby="verdict-unit-title">
      <h2 id="verdict-unit-title" className="head">
        The unit disagrees with itself
      </h2>
      <p>
        Whatever it is called, no listed parts together agree with every entry: one of its parts is not in the atlas, or an entry is wrong.
        In doubt:{' '}
        <b>
          <TermsText text={doubtful.join(', ')} />
        </b>
        .
        {beside && (
          <button type="button" className="button plain no-print" aria-expanded={asked} onClick={() => setAsked(!asked)}>
            {asked ? 'Hide why' : 'Show why'}
          </button>
        )}
      </p>
      {shown && (
        <ConflictPanel
          conflicts={verdict.unit}
          of={{ sheet: matters, name: null }}
          sheet={sheet}
          name={null}
          label="Where the unit disagrees with itself"
        />
      )}
    </section>
  );
}
