import { type RefObject, useRef } from 'react';
import type { PackLoaded } from '../../electron/bridge/pack-calls.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMany } from '../values/sayMany.ts';
import { LeftAlone, Looked } from './Looked.tsx';
import { RemarkTable } from './RemarkTable.tsx';
import { SoundPack } from './SoundPack.tsx';
import { type Bringing, useBringing } from './useBringing.ts';

interface Props {
  /** Something was chosen: what was said before is of something else. */
  onChosen?(): void;
  onBrought(pack: PackLoaded): void;
}

/** Brings a pack in: chosen as a folder or a ZIP, looked at, its faults shown or what it comes to, and put in on a press. */
export function BringPack({ onChosen, onBrought }: Props) {
  const { bringing, choose, look, leave, putIn } = useBringing(onBrought);
  const chosen = (files: readonly File[]): Promise<void> => {
    if (files.length > 0) onChosen?.();
    return choose(files);
  };
  const folder = useRef<HTMLInputElement>(null);
  const zip = useRef<HTMLInputElement>(null);
  const busy = bringing.state === 'handing over' || bringing.state === 'looking' || bringing.state === 'putting in';
  return (
    <div className="bring">
      <div className="bring-ways no-print">
        <button type="button" className="button" disabled={busy} onClick={() => folder.current?.click()}>
          Choose a folder…
        </button>
        <button type="button" className="button" disabled={busy} onClick={() => zip.current?.click()}>
          Choose a ZIP…
        </button>
        <span role="status" className="soft">
          {sayState(bringing)}
        </span>
      </div>
      <Chooser input={folder} label="Folder of a pack" of={{ webkitdirectory: '', multiple: true }} onChosen={chosen} />
      <Chooser input={zip} label="Pack in one ZIP" of={{ accept: '.zip,application/zip' }} onChosen={chosen} />
      {bringing.state === 'trouble' && <TroubleNote lead="The pack was not put in." trouble={bringing.trouble} />}
      {bringing.state === 'faulty' && <Faulty {...bringing} />}
      {bringing.state === 'doubted' && (
        <TroubleNote lead="The pack was not put in." trouble={bringing.trouble}>
          <p className="actions">
            <button type="button" className="button" onClick={() => void look(bringing.handed, true)}>
              I have asked them: show it all the same
            </button>
            <button type="button" className="button" onClick={leave}>
              Leave it
            </button>
          </p>
        </TroubleNote>
      )}
      {bringing.state === 'sound' && (
        <SoundPack
          looked={bringing.looked}
          signerIsFine={bringing.signerIsFine}
          onPutIn={(holds) => void putIn(bringing, holds)}
          onLeave={leave}
        />
      )}
    </div>
  );
}

interface ChooserProps {
  readonly input: RefObject<HTMLInputElement | null>;
  readonly label: string;
  readonly of: { readonly accept: string } | { readonly webkitdirectory: ''; readonly multiple: true };
  onChosen(files: readonly File[]): Promise<void>;
}

/** The system's own way of choosing, opened by a button. The same may be chosen again after it was mended. */
function Chooser({ input, label, of, onChosen }: ChooserProps) {
  return (
    <input
      ref={input}
      type="file"
      {...of}
      className="unseen"
      tabIndex={-1}
      aria-label={label}
      onChange={(event) => {
        const files = [...(event.target.files ?? [])];
        event.target.value = '';
        void onChosen(files);
      }}
    />
  );
}

const sayState = (bringing: Bringing): string => {
  switch (bringing.state) {
    case 'handing over':
      return `Handing it over, ${Math.floor(bringing.share * 100)} %…`;
    case 'looking':
      return `Reading ${bringing.name}…`;
    case 'putting in':
      return `Putting in ${bringing.title}…`;
    case 'brought':
      return bringing.pack.changed
        ? `Put in: ${bringing.pack.title}, edition ${bringing.pack.edition}.`
        : 'The atlas held exactly this already.';
    case 'none':
    case 'doubted':
    case 'faulty':
    case 'sound':
    case 'trouble':
      return '';
  }
};

function Faulty({ name, looked: { faults, count, leftAlone } }: Extract<Bringing, { state: 'faulty' }>) {
  return (
    <Looked title={`${name}: ${sayMany(count, 'fault was found', 'faults were found')}`}>
      <p>
        Nothing was put in. Mend {count === 1 ? 'it' : 'them'} in the files and choose the pack again.
        {count > faults.length && ` The first ${faults.length} are listed.`}
      </p>
      <RemarkTable label="Faults" said="Expected" remarks={faults} />
      <LeftAlone names={leftAlone} />
    </Looked>
  );
}
