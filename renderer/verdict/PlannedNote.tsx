import type { Sheet } from '../../reasoner/index.ts';
import { PartName } from '../bridge/PartNames.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { hrefOf } from '../route/route.ts';

/** A planned build is on paper (J2): its parts are chosen, and this screen, which judges found units, leads to the bench that judges plans. */
export function PlannedNote({ sheet }: { readonly sheet: Sheet }) {
  const words = useWords();
  const chosen = words.slots.filter((slot) => sheet.chosen[slot.id] !== undefined);
  return (
    <div className="planned">
      <h2 className="headline">A planned build</h2>
      <p>
        Its parts are chosen, not found, so nothing is concluded from looks. How its joints fit, what work it takes and which name it may
        carry is judged joint by joint under <a href={hrefOf({ screen: 'build', place: 'bench' })}>Build</a>.
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
