import type { ReactNode } from 'react';
import type { Edit } from '../../db/answers.ts';
import { capital, numberInWords } from '../../reasoner/plain/text.ts';
import { useWhoList } from '../look/HeldShop.tsx';
import { landmark } from '../look/landmarks.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { useMakingHere } from './making.ts';
import type { Looked } from './useLook.ts';

/** `Two things stand in the way.` */
export const sayInTheWay = (many: number): string =>
  `${capital(numberInWords(many))} ${many === 1 ? 'thing stands' : 'things stand'} in the way.`;

/** That a change was made from the form that stands here, with undo beside it. */
export function MadeNote({ place, children }: { readonly place: string; readonly children?: ReactNode }) {
  const making = useMakingHere();
  if (making.made === null || making.madeAt !== place) return null;
  return (
    <p className="edit-made" role="status">
      {making.undone ? 'The change was taken back.' : 'The change was made.'} {!making.undone && children}{' '}
      {!making.undone && making.made.change !== null && (
        <button type="button" className="button" disabled={making.busy} onClick={() => void making.undo()}>
          Undo it
        </button>
      )}
    </p>
  );
}

/** Who makes it and why, and the button that makes it; afterwards that it was made, with undo beside it. */
export function MakeBar(props: {
  /** What it is that is edited here. */
  readonly place: string;
  readonly edits: readonly Edit[];
  readonly looked: Looked;
  /** Why it cannot be made yet, beside what stands in the way of the edits themselves. */
  readonly waits: string | null;
  readonly madeIt: ReactNode;
  onMake(): void;
  onDiscard(): void;
}) {
  const { edits, looked, waits } = props;
  const making = useMakingHere();
  const whoList = useWhoList();
  const faults = looked.seen?.faults.length ?? 0;
  const ready = edits.length > 0 && looked.seen !== null && faults === 0 && waits === null;
  return (
    <div className="edit-make">
      {making.trouble !== null && <TroubleNote lead="Nothing was changed." trouble={making.trouble} />}
      {edits.length === 0 && <MadeNote place={props.place}>{props.madeIt}</MadeNote>}
      <div className="edit-make-line">
        <label>
          Who{' '}
          <input
            className="field who"
            type="text"
            maxLength={200}
            list={whoList}
            value={making.who}
            onChange={({ target }) => making.say({ who: target.value })}
          />
        </label>
        <label className="grow">
          Why{' '}
          <input
            className="field"
            type="text"
            maxLength={2000}
            placeholder="what somebody will want to know in a year"
            value={making.why}
            onChange={({ target }) => making.say({ why: target.value })}
          />
        </label>
        <label className="grow">
          From{' '}
          <input
            className="field"
            type="text"
            maxLength={2000}
            placeholder="a sheet, a letter, the part on the bench"
            value={making.from}
            onChange={({ target }) => making.say({ from: target.value })}
          />
        </label>
        <button type="button" className="button main" {...landmark('main action')} disabled={!ready || making.busy} onClick={props.onMake}>
          Make the change
        </button>
        <button type="button" className="button" disabled={edits.length === 0 && waits === null} onClick={props.onDiscard}>
          Discard
        </button>
        <span className="small soft edit-waits" role="status">
          {waits ??
            (edits.length === 0
              ? 'Nothing is changed yet.'
              : looked.seen === null
                ? 'Looking what it would change…'
                : faults > 0
                  ? sayInTheWay(faults)
                  : 'Ctrl+S makes it.')}
        </span>
      </div>
    </div>
  );
}
