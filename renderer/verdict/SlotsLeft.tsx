import { useState } from 'react';
import type { SlotAnswer, Verdict } from '../../reasoner/index.ts';
import { listsNone } from '../../reasoner/plain/lists-none.ts';
import { PartName, PartNames } from '../bridge/PartNames.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';

/** Slot by slot: which listed parts are left, and what removed the others. */
export function SlotsLeft({ verdict }: { readonly verdict: Verdict }) {
  return (
    <section className="block" id="verdict-parts" tabIndex={-1} aria-labelledby="verdict-parts-title">
      <h2 id="verdict-parts-title" className="head">
        Parts left in each slot
      </h2>
      <p className="small soft">Beside the listed parts an unlisted one is always possible.</p>
      {verdict.slots.map((slot) => (
        <SlotLeft key={slot.slot} answer={slot} />
      ))}
    </section>
  );
}

function SlotLeft({ answer }: { readonly answer: SlotAnswer }) {
  const words = useWords();
  const [open, setOpen] = useState(false);
  return (
    <details className="slot-left" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span>{words.slotName(answer.slot)}</span>
        <span>
          {answer.absent ? (
            'not with the unit'
          ) : listsNone(answer) ? (
            'none listed'
          ) : (
            <>
              <b>{answer.candidates.length}</b> of {answer.listed}
              {answer.numberNotListed !== null && ' · number not listed'}
            </>
          )}
          {answer.doubtful && (
            <>
              {' · '}
              <span className="status is-open">doubtful</span>
            </>
          )}
        </span>
      </summary>
      {open && (
        <dl>
          <dt>Left</dt>
          <dd>
            <PartNames parts={answer.candidates} />
            {answer.numberNotListed !== null && (
              <span>a plate of {answer.numberNotListed.map(words.makerName).join(' or ')}, its number not listed</span>
            )}
          </dd>
          {answer.removedByObservations > 0 && (
            <>
              <dt>Ruled out by entries</dt>
              <dd>{answer.removedByObservations}</dd>
            </>
          )}
          {answer.removedByJoints.length > 0 && (
            <>
              <dt>Ruled out by the parts beside it</dt>
              <dd>
                {answer.removedByJoints.slice(0, 20).map((one) => (
                  <span key={one.part} className="fallen">
                    <PartName part={one.part} />{' '}
                    <span className="soft">
                      {one.because.kind === 'together'
                        ? '(not by one part alone, but by all of them together)'
                        : `(${words.jointName(one.because.joint)}: no ${words.slotName(one.because.other)} that is left fits it)`}
                    </span>
                  </span>
                ))}
                {answer.removedByJoints.length > 20 && <span className="soft">and {answer.removedByJoints.length - 20} more</span>}
              </dd>
            </>
          )}
          {answer.machined.length > 0 && (
            <>
              <dt>Only if machined</dt>
              <dd>
                {answer.machined.slice(0, 12).map((one) => (
                  <span key={one.part} className="fallen">
                    <PartName part={one.part} />
                  </span>
                ))}
                {answer.machined.length > 12 && <span className="soft">and {answer.machined.length - 12} more</span>}
              </dd>
            </>
          )}
          {answer.silent.length > 0 && (
            <>
              <dt>Left, though the atlas does not say</dt>
              <dd>
                {answer.silent.slice(0, 12).map((one) => (
                  <span key={one.part} className="fallen">
                    <PartName part={one.part} />{' '}
                    <span className="soft">
                      <TermsText text={`(${one.features.map((feature) => words.featureName(feature)).join(', ')})`} />
                    </span>
                  </span>
                ))}
                {answer.silent.length > 12 && <span className="soft">and {answer.silent.length - 12} more</span>}
              </dd>
            </>
          )}
        </dl>
      )}
    </details>
  );
}
