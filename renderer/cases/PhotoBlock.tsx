import { type DragEvent, useRef, useState } from 'react';
import type { CasePhoto } from '../../db/answers.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { PhotoCard } from './PhotoCard.tsx';
import { PhotoView } from './PhotoView.tsx';
import { picturesIn } from './photoFile.ts';
import { sayAbout } from './sayCase.ts';
import { type PhotoWords, usePhotos } from './usePhotos.ts';

interface Props {
  readonly sheet: SheetId;
  /** Of the case; null while it has none. */
  readonly number: string | null;
  /** The sheet as it was saved last: its entries are what a photograph may be tied to. */
  readonly saved: Sheet | null;
  readonly photos: readonly CasePhoto[];
  readonly past?: boolean;
  /** Saves a sheet that is no case yet; left out where it is one. */
  readonly makeCase?: (() => Promise<boolean>) | undefined;
  onPhotos(photos: readonly CasePhoto[]): void;
}

/** The photographs of a case: picked, pasted or dropped, looked at, tied to what they show, taken out. */
export function PhotoBlock({ sheet: id, number, saved: sheet, photos, past = false, makeCase, onPhotos }: Props) {
  const words = useWords();
  const [over, setOver] = useState(false);
  const [shown, setShown] = useState<CasePhoto | null>(null);
  const [leaving, setLeaving] = useState<CasePhoto | null>(null);
  const adder = useRef<HTMLDivElement>(null);
  const { adding, said, refused, add, remove, describeAnew, met, leaveMet } = usePhotos({ sheet: id, past, makeCase, onPhotos });

  const drag = (event: DragEvent, is: boolean) => {
    event.preventDefault();
    setOver(is);
  };

  const removeNow = async (photo: CasePhoto) => {
    setLeaving(null);
    if (await remove(photo)) adder.current?.querySelector('button')?.focus();
  };

  return (
    <section
      className={`case-block photo-block${over ? ' is-over' : ''}`}
      aria-labelledby="photos-head"
      onDragOver={(event) => drag(event, !past)}
      onDragLeave={(event) => drag(event, false)}
      onDrop={(event) => {
        drag(event, false);
        void add(picturesIn(event.dataTransfer));
      }}
    >
      <div className="block-head">
        <h2 id="photos-head" className="head">
          Photographs
        </h2>
        <span className="small soft no-print" role="status">
          {adding ? 'Adding…' : said}
        </span>
      </div>
      {refused.length > 0 && (
        <ul className="trouble" role="alert">
          {refused.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {photos.length > 0 && (
        <ul className="photos" aria-label="Photographs of the case">
          {photos.map((photo) => (
            <PhotoCard
              key={photo.id}
              photo={photo}
              sheet={sheet}
              past={past}
              onShow={() => setShown(photo)}
              onDescribe={(change) => void describeAnew(photo, change)}
              onRemove={() => setLeaving(photo)}
            />
          ))}
        </ul>
      )}
      {photos.length === 0 && past && <p className="soft">There were none yet.</p>}
      {!past && (
        <div ref={adder} className="photo-add no-print">
          <FileChooser
            label="Photograph files"
            of={{ accept: 'image/jpeg,image/png,image/webp', multiple: true }}
            disabled={adding}
            onChosen={(picked) => void add(picked)}
          >
            Add photographs…
          </FileChooser>
          <span className="small soft">
            or paste or drop them here. JPEG, PNG or WebP, 10 MiB at most.
            {makeCase !== undefined && ' The sheet is saved first: photographs belong to its case.'}
          </span>
        </div>
      )}
      {shown !== null && <PhotoView photo={shown} sheet={sheet} onLeave={() => setShown(null)} />}
      {met !== null && (
        <FieldsDialog<PhotoWords>
          title="This photograph was described elsewhere"
          told="Somebody wrote what the photograph shows, after it was read here. Nothing was overwritten."
          base={photoWordsOf(met.base)}
          mine={met.mine}
          theirs={photoWordsOf(met.theirs)}
          names={{ caption: 'Caption', about: 'What it shows' }}
          say={(field, value) => (field === 'caption' ? String(value) : sayAbout(value as CasePhoto['about'], sheet, words))}
          onSave={(chosen) => {
            leaveMet();
            void describeAnew(met.theirs, chosen);
          }}
          onTake={leaveMet}
          onLater={leaveMet}
        />
      )}
      {leaving !== null && (
        <AskDialog
          title="Remove this photograph?"
          onLeave={() => setLeaving(null)}
          choices={[{ label: 'Remove it', tone: 'danger', run: () => void removeNow(leaving) }]}
        >
          <p>
            {leaving.caption === '' ? 'It' : <b>{leaving.caption}</b>} is taken out of case {number} for good, from the days gone by as
            well.
          </p>
        </AskDialog>
      )}
    </section>
  );
}

const photoWordsOf = ({ caption, about }: CasePhoto): PhotoWords => ({ caption, about });
