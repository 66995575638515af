import { type ReactNode, type RefObject, useEffect, useRef } from 'react';
import type { PackLoaded } from '../../electron/bridge/pack-calls.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMany } from '../values/sayMany.ts';
import { RemarkTable } from './RemarkTable.tsx';
import { saySort } from './sayPack.ts';
import { type Bringing, useBringing } from './useBringing.ts';

interface Props {
  /** Something was chosen: what was said before is of something else. */
  onChosen?(): void;
  onBrought(pack: PackLoaded): void;
}

/** Brings a pack in: chosen as a folder or a ZIP, looked at, its faults shown or what it comes to, and put in on a press. */
export function BringPack({ onChosen, onBrought }: Props) {
  const { bringing, choose, leave, putIn } = useBringing(onBrought);
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
      {bringing.state === 'sound' && (
        <Sound {...bringing} onPutIn={() => void putIn(bringing.handed.token, bringing.looked.pack.title)} onLeave={leave} />
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
    case 'faulty':
    case 'sound':
    case 'trouble':
      return '';
  }
};

/** What came of looking, which takes the focus: it is what somebody waits for. */
function Looked({ title, children }: { readonly title: ReactNode; readonly children: ReactNode }) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  return (
    <section className="looked" aria-label="The pack that was chosen">
      <h3 ref={head} tabIndex={-1}>
        {title}
      </h3>
      {children}
    </section>
  );
}

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

type SoundProps = Extract<Bringing, { state: 'sound' }> & { onPutIn(): void; onLeave(): void };

function Sound({ looked: { pack, leftAlone }, onPutIn, onLeave }: SoundProps) {
  const { counts, warnings, replaced } = pack;
  // What a pack says of itself is new with the pack.
  const change = pack.change.filter(({ of }) => of !== 'pack' || replaced !== null);
  return (
    <Looked
      title={
        <>
          {pack.title}, edition {pack.edition} {pack.invented && <span className="invented-tag">invented</span>}
        </>
      }
    >
      <p>
        {sayMany(counts.parts, 'part')} with {sayMany(counts.facts, 'fact')}, {sayMany(counts.models, 'model')},{' '}
        {sayMany(counts.sheets, 'sample sheet')}. {whatItDoes(pack)}
      </p>
      <div className="actions">
        {pack.changed && (
          <button type="button" className="button main" onClick={onPutIn}>
            Put it in
          </button>
        )}
        <button type="button" className="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
      {change.length > 0 && (
        <table className="page-table change-table" aria-label="What it adds, alters and takes away">
          <thead>
            <tr>
              <td />
              <th scope="col">New</th>
              <th scope="col">Altered</th>
              <th scope="col">Gone</th>
            </tr>
          </thead>
          <tbody>
            {change.map((one) => (
              <tr key={one.of}>
                <th scope="row">{saySort(one.of)}</th>
                {[one.added, one.altered, one.removed].map((many, column) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: three columns, always the same.
                  <td key={column} className={many === 0 ? 'soft' : undefined}>
                    {many}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {warnings.length > 0 && (
        <details>
          <summary>{sayMany(warnings.length, 'remark')} on it</summary>
          <RemarkTable label="Remarks" said="What it means" remarks={warnings} />
        </details>
      )}
      <LeftAlone names={leftAlone} />
    </Looked>
  );
}

const whatItDoes = ({ changed, replaced, with: leaned }: PackLoaded): string => {
  if (!changed) return 'The atlas holds exactly this already, so there is nothing to put in.';
  const place = replaced === null ? 'The atlas does not hold it yet.' : `It takes the place of edition ${replaced}.`;
  const brought = leaned.map(({ id, edition }) => `${id}, edition ${edition}`).join(' and ');
  return leaned.length === 0 ? place : `${place} It leans on ${brought}, which comes with it.`;
};

function LeftAlone({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  const shown = names.slice(0, 8);
  return (
    <p className="small soft">
      Left alone, being no files of a pack: {shown.join(', ')}
      {names.length > shown.length && ` and ${names.length - shown.length} more`}.
    </p>
  );
}
