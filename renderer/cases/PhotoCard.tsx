import { useEffect, useState } from 'react';
import type { CasePhoto, PhotoAbout } from '../../db/answers.ts';
import type { ObservationId, Sheet, SlotId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { asId } from '../route/asId.ts';
import { sayObservation } from '../values/sayings.ts';
import { sayAbout } from './sayCase.ts';
import { usePicture } from './usePicture.ts';

interface Props {
  readonly photo: CasePhoto;
  /** The sheet as it was saved last; its entries are what a photograph may be tied to. */
  readonly sheet: Sheet | null;
  readonly past: boolean;
  onShow(): void;
  onDescribe(change: Pick<CasePhoto, 'caption' | 'about'>): void;
  onRemove(): void;
}

/** A thumbnail with its caption and what it shows. */
export function PhotoCard({ photo, sheet, past, onShow, onDescribe, onRemove }: Props) {
  const words = useWords();
  const [caption, setCaption] = useState(photo.caption);
  // It may be written elsewhere, and is read anew here when that is met.
  useEffect(() => setCaption(photo.caption), [photo.caption]);
  const { address, trouble } = usePicture(photo.id, 'thumbnail');
  const about = sayAbout(photo.about, sheet, words);
  const name = photo.caption || about || 'photograph';
  const tie = photo.about === null ? '' : photo.about.kind === 'slot' ? `slot ${photo.about.slot}` : `entry ${photo.about.observation}`;
  const missing = photo.about?.kind === 'observation' && !sheet?.observations.some(({ id }) => id === tie.slice('entry '.length));
  return (
    <li className="photo">
      <button type="button" className="photo-button" aria-label={`Look at ${name}`} onClick={onShow}>
        {address === null ? <span className="small soft">{trouble ?? '…'}</span> : <img src={address} alt="" />}
      </button>
      {past ? (
        <p className="small">
          {photo.caption} {about !== '' && <span className="soft">({about})</span>}
        </p>
      ) : (
        <>
          <input
            className="field small no-print"
            aria-label={`Caption of ${name}`}
            placeholder="caption"
            maxLength={500}
            value={caption}
            onChange={(event) => setCaption(event.target.value)}
            onBlur={() => caption !== photo.caption && onDescribe({ caption, about: photo.about })}
          />
          <select
            className="field small no-print"
            aria-label={`What ${name} shows`}
            value={tie}
            onChange={(event) => onDescribe({ caption, about: aboutOf(event.target.value) })}
          >
            <option value="">shows nothing in particular</option>
            {missing && <option value={tie}>{about}</option>}
            <optgroup label="Part">
              {words.slots.map((slot) => (
                <option key={slot.id} value={`slot ${slot.id}`}>
                  {slot.name}
                </option>
              ))}
            </optgroup>
            {sheet !== null && sheet.observations.length > 0 && (
              <optgroup label="Entry">
                {sheet.observations.map((one) => (
                  <option key={one.id} value={`entry ${one.id}`}>
                    {words.slotName(one.slot)}: {sayObservation(words.feature(one.feature), one, words.unit)}
                  </option>
                ))}
              </optgroup>
            )}
          </select>
          <p className="print-only small">
            {photo.caption} {about !== '' && <>({about})</>}
          </p>
          <button type="button" className="button bare small no-print" aria-label={`Remove ${name}`} onClick={onRemove}>
            Remove
          </button>
        </>
      )}
    </li>
  );
}

const aboutOf = (value: string): PhotoAbout | null => {
  if (value === '') return null;
  return value.startsWith('slot ')
    ? { kind: 'slot', slot: asId<SlotId>(value.slice('slot '.length)) }
    : { kind: 'observation', observation: asId<ObservationId>(value.slice('entry '.length)) };
};
