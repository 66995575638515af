import type { Sheet, Verdict } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { ConflictPanel } from '../graph/ConflictPanel.tsx';

/** Conflicts of the unit with itself: whatever it is called, some part is unlisted or some entry is wrong. */
export function UnitConflicts({ verdict, sheet }: { readonly verdict: Verdict; readonly sheet: Sheet }) {
  const words = useWords();
  if (verdict.unit.found.length === 0) return null;
  const doubtful = verdict.slots.filter((slot) => slot.doubtful).map((slot) => words.slotName(slot.slot));
  return (
    <section className="block" aria-labelledby="verdict-unit-title">
      <h2 id="verdict-unit-title" className="head">
        The unit disagrees with itself
      </h2>
      <p>
        Whatever it is called, no listed parts can be all of this at once: a part the atlas does not list, or a wrong entry. In doubt:{' '}
        <b>
          <TermsText text={doubtful.join(', ')} />
        </b>
        .
      </p>
      <ConflictPanel conflicts={verdict.unit} sheet={sheet} name={null} label="Where the unit disagrees with itself" />
    </section>
  );
}
