import { useState } from 'react';
import type { PartId, SlotOdds } from '../../reasoner/index.ts';
import { PartName } from '../bridge/PartNames.tsx';
import { PartText } from '../bridge/PartText.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { Chance } from './Chance.tsx';
import { sayCovered, sayShare } from './oddsWords.ts';

/** The likely parts of one slot; the unlisted part is always among them, and so is how far the atlas knows what was seen. */
export function LikelyParts({ odds, absent }: { readonly odds: SlotOdds; readonly absent: boolean }) {
  const words = useWords();
  const [open, setOpen] = useState(false);
  const [first] = odds.parts;
  const unlisted = odds.parts.find(({ part }) => part === null);
  return (
    <details className="slot-odds" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span>{words.slotName(odds.slot)}</span>
        {absent ? (
          <span className="soft">not with the unit</span>
        ) : (
          <>
            <span>
              {first !== undefined && odds.alike === 1 && <PartOrUnlisted part={first.part} />}
              {odds.alike > 1 && `any of ${odds.alike}, each`}{' '}
              {first !== undefined && <span className="chance-share">{sayShare(first.chance)}</span>}
            </span>
            <span className="soft small">unlisted {unlisted === undefined ? '' : sayShare(unlisted.chance)}</span>
            <span className="soft small">{sayCovered(odds.covered)}</span>
          </>
        )}
      </summary>
      {open && !absent && (
        <ul aria-label={`Likely parts: ${words.slotName(odds.slot)}`}>
          {odds.parts.map(({ part, chance }) => (
            <li key={part ?? 'unlisted'} className={part === null ? 'is-unlisted' : undefined}>
              {part === null ? 'a part the atlas does not list' : <PartName part={part} />}
              <Chance chance={chance} />
            </li>
          ))}
          {odds.rest > 0.0005 && (
            <li className="soft">
              <span>any other listed part</span>
              <Chance chance={odds.rest} />
            </li>
          )}
        </ul>
      )}
    </details>
  );
}

function PartOrUnlisted({ part }: { readonly part: PartId | null }) {
  return part === null ? <>a part the atlas does not list</> : <PartText part={part} />;
}
