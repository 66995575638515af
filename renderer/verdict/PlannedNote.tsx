import type { Sheet } from '../../reasoner/index.ts';
import { PartName } from '../bridge/PartNames.tsx';
import { useWords } from '../bridge/WordsContext.ts';

/** A planned build is on paper (J2): its parts are chosen, and this screen, which judges found units, says so rather than guess. */
export function PlannedNote({ sheet }: { readonly sheet: Sheet }) {
  const words = useWords();
  const chosen = words.slots.filter((slot) => sheet.chosen[slot.id] !== undefined);
  return (
    <div className="planned">
      <h2 className="headline">A planned build</h2>
      <p>
        Its parts are chosen, not found, so nothing is concluded from looks. How its joints fit and which name it may carry is judged joint
        by joint; this window does not do that yet.
      </p>
      <dl>
        {chosen.map((slot) => {
          const part = sheet.chosen[slot.id];
          return (
            part !== undefined && (
              <div key={slot.id}>
                <dt>{slot.name}</dt>
                <dd>
                  <PartName part={part} />
                </dd>
              </div>
            )
          );
        })}
      </dl>
      {chosen.length === 0 && <p className="soft">No part is chosen yet.</p>}
      {sheet.observations.length > 0 && <p className="soft">Below: what follows from its entries alone.</p>}
    </div>
  );
}
