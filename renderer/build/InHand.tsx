import '../sheet/sheet.css';
import '../sheet/entry.css';
import type { ObservationId, Slot } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { SlotEntries } from '../sheet/SlotEntries.tsx';

const none: ReadonlySet<ObservationId> = new Set();

/** What was seen and measured on the part in hand. It stands in place of the atlas's limits at every joint, with its uncertainty. */
export function InHand({ slot }: { readonly slot: Slot }) {
  const { sheet } = useBench();
  const [unit] = useLengthUnit();
  return (
    <div className="in-hand">
      <SlotEntries
        slot={slot}
        observations={sheet.observations.filter((one) => one.slot === slot.id)}
        unseen={[]}
        disputed={none}
        unit={unit}
        pad={false}
        mayBeUnseen={false}
        onWalk={() => undefined}
      >
        {(add) => (
          <div className="in-hand-head">
            <h3 className="head" title="What is measured here stands in place of the atlas’s limits, with its uncertainty">
              The part in hand
            </h3>
            {add}
          </div>
        )}
      </SlotEntries>
    </div>
  );
}
