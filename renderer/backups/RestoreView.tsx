import { useEffect, useRef, useState } from 'react';
import type { Backup, Difference, Named, Restored, RestorePreview } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { saySharedLetter } from '../../reasoner/plain/shared-letter.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayKind } from './sayBackup.ts';

interface Props {
  readonly backup: Backup;
  onRestored(restored: Restored): void;
  onLeave(): void;
}

/** What putting one backup back would come to; then, when somebody has read it, that. */
export function RestoreView({ backup, onRestored, onLeave }: Props) {
  const [looks, setLooks] = useState(0);
  const [asking, setAsking] = useState(false);
  const [working, setWorking] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const asked = useAsk('backups.preview', { name: backup.name }, 0, looks);
  const preview = asked.state === 'answered' ? asked.value : latest(asked);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    head.current?.focus();
    head.current?.scrollIntoView({ block: 'nearest' });
  }, []);

  const putBack = async (madeAgainst: string | null): Promise<void> => {
    setAsking(false);
    setWorking(true);
    setTrouble(null);
    const reply = await desk.ask('backups.restore', { name: backup.name, madeAgainst });
    setWorking(false);
    if (reply.ok) return onRestored(reply.value);
    setTrouble(reply.trouble);
    // What was shown is of a state that is gone: it is shown anew.
    setLooks((count) => count + 1);
  };

  return (
    <section className="restore no-print" aria-labelledby="restore-head">
      <h2 id="restore-head" className="head" ref={head} tabIndex={-1}>
        What the backup of {sayInstant(backup.at)} would bring back
      </h2>
      {asked.state === 'trouble' && <TroubleNote lead="It cannot be put back." trouble={asked.trouble} />}
      {trouble !== null && <TroubleNote lead="It was not put back." trouble={trouble} />}
      {preview === null && asked.state !== 'trouble' && <p className="soft">Looking into it…</p>}
      {preview !== null && <Comparison preview={preview} />}
      <div className="actions">
        {preview !== null && !preview.same && (
          <button type="button" className="button danger" disabled={working || asked.state !== 'answered'} onClick={() => setAsking(true)}>
            {working ? 'Putting it back…' : 'Put it back…'}
          </button>
        )}
        <button type="button" className="button" disabled={working} onClick={onLeave}>
          Leave everything as it is
        </button>
      </div>
      {asking && preview !== null && (
        <AskDialog
          title={`Put back the backup of ${sayInstant(backup.at)}?`}
          onLeave={() => setAsking(false)}
          choices={[{ label: 'Put it back', tone: 'danger', run: () => void putBack(preview.madeAgainst) }]}
        >
          <p>
            {preview.madeAgainst === null
              ? 'A copy of it becomes the atlas. What was entered after it was made is not in it; the backup itself stays where it is.'
              : 'All that was entered since then goes, for every window on this atlas. What there is now is put into a backup of its own first, so that this can be undone.'}
          </p>
        </AskDialog>
      )}
    </section>
  );
}

function Comparison({ preview: { backup, same, migrates, differences, madeAgainst, elsewhere } }: { readonly preview: RestorePreview }) {
  if (same) return <p>The atlas holds exactly what this backup holds: there is nothing to put back.</p>;
  const told = differences.filter(({ comesBack, goes, differs }) => comesBack.count + goes.count + differs.count > 0);
  return (
    <>
      {migrates && <p>It was made by an older version of the program, and is brought up to date as it is put back.</p>}
      {elsewhere !== null && <p className="trouble">{saySharedLetter(backup.name, elsewhere)}</p>}
      <table className="line-table restore-table" aria-label="What would come back, go, and be as it was then">
        <thead>
          <tr>
            <td />
            <th scope="col">Now</th>
            <th scope="col">Afterwards</th>
            <th scope="col">Comes back</th>
            <th scope="col">Goes</th>
            <th scope="col">As it was then</th>
          </tr>
        </thead>
        <tbody>
          {told.map((one) => (
            <DifferenceRow key={one.what} difference={one} />
          ))}
        </tbody>
      </table>
      {madeAgainst !== null && (
        <p className="soft">Whatever is not named here stays as it is. Numbers of cases that were given are not given again.</p>
      )}
    </>
  );
}

function DifferenceRow({ difference: { what, now, afterwards, comesBack, goes, differs } }: { readonly difference: Difference }) {
  return (
    <tr>
      <th scope="row">{sayKind(what)}</th>
      <td>{now}</td>
      <td>{afterwards}</td>
      {[comesBack, goes, differs].map((named, column) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: three columns, always the same.
        <td key={column}>
          <Names named={named} />
        </td>
      ))}
    </tr>
  );
}

/** So many names stand open; the others unfold. */
const shown = 5;

function Names({ named: { count, names } }: { readonly named: Named }) {
  if (count === 0) return <span className="soft">none</span>;
  const more = names.slice(shown);
  const unnamed = count - names.length;
  return (
    <>
      <ul className="restore-names">
        {names.slice(0, shown).map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
      {more.length > 0 && (
        <details>
          <summary>{count - shown} more</summary>
          <ul className="restore-names">
            {more.map((name) => (
              <li key={name}>{name}</li>
            ))}
            {unnamed > 0 && <li>and {unnamed} that are not named here</li>}
          </ul>
        </details>
      )}
    </>
  );
}
