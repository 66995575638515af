import { useId } from 'react';
import type { SlotTold } from '../../electron/bridge/verdict-calls.ts';
import type { Observation, ObservationId, Slot, Unseen } from '../../reasoner/index.ts';
import { listsNone } from '../../reasoner/plain/lists-none.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withAbsent } from '../bench/sheetEdits.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import type { LengthUnit } from '../values/readSeen.ts';
import { SlotEntries } from './SlotEntries.tsx';

interface Props {
  readonly slot: Slot;
  readonly observations: readonly Observation[];
  readonly unseen: readonly Unseen[];
  readonly absent: boolean;
  readonly answer: SlotTold | null;
  readonly disputed: ReadonlySet<ObservationId>;
  readonly unit: LengthUnit;
  /** Whether figures are offered to tap. */
  readonly pad: boolean;
  onWalk(from: Element, direction: 1 | -1): void;
}

/** One slot of the unit: how many listed parts are left in it, its entries, and whether it came without. */
export function SlotCard({ absent, answer, ...entries }: Props) {
  const { edit } = useBenchActions();
  const { slot } = entries;
  const id = useId();
  return (
    <section className={absent ? 'slot is-absent' : 'slot'} aria-labelledby={id}>
      <SlotEntries {...entries} mayBeUnseen>
        {(add) => (
          <div className="slot-head">
            <h3 id={id} className="head">
              <TermsText text={slot.name} />
            </h3>
            <SlotCount answer={answer} absent={absent} />
            {add}
            <label className="slot-absent no-print" title={`The unit came without ${slot.name}`}>
              <input
                type="checkbox"
                aria-label={`absent: ${slot.name} is not with the unit`}
                checked={absent}
                onChange={(event) => edit(withAbsent(slot.id, event.target.checked))}
              />
              absent
            </label>
          </div>
        )}
      </SlotEntries>
    </section>
  );
}

/** How many listed parts are left in the slot, or why the question does not arise. */
function SlotCount({ answer, absent }: { readonly answer: SlotTold | null; readonly absent: boolean }) {
  if (absent) return <span className="slot-count">not here</span>;
  if (answer === null) return <span className="slot-count" />;
  if (listsNone(answer))
    return (
      <span className="slot-count soft" title="The atlas lists no part of this kind, so nothing is concluded here">
        none listed
      </span>
    );
  const { left } = answer;
  return (
    <span className={answer.doubtful ? 'slot-count is-doubtful' : 'slot-count'}>
      {answer.doubtful ? (
        <span title="Its entries or its neighbours cannot all be true of listed parts: an unlisted part, or a wrong entry">⚠︎ doubtful</span>
      ) : (
        <span title={`Of ${answer.listed} parts the atlas lists here, ${left} ${left === 1 ? 'agrees' : 'agree'} with everything entered`}>
          <b>{left}</b> of {answer.listed}
          <span className="slot-count-left"> left</span>
          {answer.numberNotListed !== null && ' · number not listed'}
        </span>
      )}
    </span>
  );
}
