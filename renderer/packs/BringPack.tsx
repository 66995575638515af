import type { MappedWord } from '../../db/answers.ts';
import type { PackLoaded } from '../../electron/bridge/pack-calls.ts';
import { FileChooser } from '../look/FileChooser.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMany } from '../values/sayMany.ts';
import { LeftAlone, Looked } from './Looked.tsx';
import { Remarks, RemarkTable } from './RemarkTable.tsx';
import { SoundPack } from './SoundPack.tsx';
import { type Bringing, useBringing } from './useBringing.ts';
import { WordTable } from './WordTable.tsx';

interface Props {
  /** Something was chosen: what was said before is of something else. */
  onChosen?(): void;
  /** Something else is being put in. */
  readonly disabled?: boolean;
  onBrought(pack: PackLoaded): void;
}

/** Brings a pack in: chosen as a folder or a ZIP, looked at, its faults shown or what it comes to, and put in on a press. */
export function BringPack({ onChosen, onBrought, disabled = false }: Props) {
  const { bringing, choose, look, leave, putIn } = useBringing(onBrought);
  const chosen = (files: readonly File[]): void => {
    if (files.length > 0) onChosen?.();
    void choose(files);
  };
  const busy = disabled || bringing.state === 'handing over' || bringing.state === 'looking' || bringing.state === 'putting in';
  return (
    <div className="bring">
      <div className="bring-ways no-print">
        <FileChooser label="Folder of a pack" of={{ webkitdirectory: '', multiple: true }} disabled={busy} onChosen={chosen}>
          Choose a folder…
        </FileChooser>
        <FileChooser label="Pack in one ZIP" of={{ accept: '.zip,application/zip' }} disabled={busy} onChosen={chosen}>
          Choose a ZIP…
        </FileChooser>
        <span role="status" className="soft">
          {sayState(bringing)}
        </span>
      </div>
      {bringing.state === 'trouble' && <TroubleNote lead="The pack was not put in." trouble={bringing.trouble} />}
      {bringing.state === 'faulty' && (
        <Faulty {...bringing} onLook={(words) => void look(bringing.handed, bringing.signerIsFine, words)} onLeave={leave} />
      )}
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
          token={bringing.handed.token}
          looked={bringing.looked}
          signerIsFine={bringing.signerIsFine}
          onLook={(words) => void look(bringing.handed, bringing.signerIsFine, words)}
          onPutIn={(holds) => void putIn(bringing, holds)}
          onLeave={leave}
        />
      )}
    </div>
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

type FaultyProps = Extract<Bringing, { state: 'faulty' }> & { onLook(words: readonly MappedWord[]): void; onLeave(): void };

function Faulty({ name, looked: { faults, count, undecided, remarks, leftAlone, words }, onLook, onLeave }: FaultyProps) {
  return (
    <Looked title={`${name}: ${sayMany(count, 'fault was found', 'faults were found')}`}>
      <p>
        Nothing was put in. Mend {count === 1 ? 'it' : 'them'} in the files and choose the pack again
        {words.length === 0 ? '.' : ', or say below what its words are called here.'}
        {count > faults.length && ` The first ${faults.length} are listed.`}
      </p>
      <RemarkTable label="Faults" said="Expected" remarks={faults} />
      {undecided.length > 0 && (
        <>
          <p>After that, to be decided before it can be put in:</p>
          <RemarkTable label="To be decided" said="Wanted" remarks={undecided} />
        </>
      )}
      <Remarks remarks={remarks} />
      {words.length > 0 && (
        <>
          <WordTable words={words} onAltered={() => undefined} onLook={onLook} />
          <p className="actions">
            <button type="button" className="button" onClick={onLeave}>
              Leave it
            </button>
          </p>
        </>
      )}
      <LeftAlone names={leftAlone} />
    </Looked>
  );
}
