import './backups.css';
import { useState } from 'react';
import type { Backup, Restored } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayBytes } from '../values/figures.ts';
import { BackupList } from './BackupList.tsx';
import { RestoreView } from './RestoreView.tsx';

/** The backups there are: made, looked into, and put back. */
export function BackupsScreen() {
  const [made, setMade] = useState(0);
  const [working, setWorking] = useState(false);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [chosen, setChosen] = useState<Backup | null>(null);
  const [restored, setRestored] = useState<Restored | null>(null);
  const asked = useAsk('backups.list', {}, 0, made);
  const list = latest(asked);

  const make = async (): Promise<void> => {
    setWorking(true);
    setTrouble(null);
    setSaid('Making a backup…');
    const reply = await desk.ask('backups.make', {});
    setWorking(false);
    setSaid(reply.ok ? `Made, ${sayBytes(reply.value.bytes)}.` : '');
    if (!reply.ok) setTrouble(reply.trouble);
    setMade((count) => count + 1);
  };

  return (
    <main className="page-screen backups-screen">
      <header className="page-ask">
        <h1 className="page-title">Backups</h1>
        <a className="no-print" href={hrefOf({ screen: 'sheets' })}>
          Back to the sheets
        </a>
        <span role="status" className="soft backups-said">
          {said}
        </span>
        <button type="button" className="button no-print" onClick={() => window.print()}>
          Print the list
        </button>
        <button type="button" className="button main no-print" disabled={working} onClick={() => void make()}>
          Make a backup now
        </button>
      </header>
      {trouble !== null && <TroubleNote lead="No backup was made." trouble={trouble} />}
      {asked.state === 'trouble' && <TroubleNote lead="The backups could not be listed." trouble={asked.trouble} />}
      {restored !== null ? (
        <PutBack restored={restored} />
      ) : list === null ? (
        asked.state !== 'trouble' && <p className="soft page-hint">Looking at the backups…</p>
      ) : (
        <>
          {list.failed !== null && (
            <div className="trouble" role="alert">
              <strong>The last backup could not be made.</strong> {sayInstant(list.failed.at)}: {list.failed.sentence}
            </div>
          )}
          <p className="backups-where">
            A backup is made after every hour that brought something new, and before a pack is changed, before the atlas is brought up to
            date for a newer version of the program, and before another backup is put back. All of a day are kept, one a day for a month and
            one a month for a year, in {sayBytes(list.atMost)} at most. They lie on the same disk as the atlas, so copy this folder
            elsewhere now and then: <code>{list.folder}</code>
          </p>
          {list.backups.length === 0 ? (
            <p className="soft page-hint">There is no backup yet.</p>
          ) : (
            <BackupList backups={list.backups} chosen={chosen?.name ?? null} onChoose={setChosen} />
          )}
          {chosen !== null && <RestoreView key={chosen.name} backup={chosen} onRestored={setRestored} onLeave={() => setChosen(null)} />}
        </>
      )}
    </main>
  );
}

/** All of the window was made of what there was before. */
function PutBack({ restored: { before } }: { readonly restored: Restored }) {
  return (
    <section className="backups-done" aria-label="Put back">
      <p role="status">
        The backup was put back. What there was before is in a backup of its own{before === null ? '' : <> ({before})</>}, so that this can
        be undone. Entries on the bench that were not saved are still there.
      </p>
      <button
        type="button"
        className="button main"
        // biome-ignore lint/a11y/noAutofocus: what had the focus is gone, and this is the one way on.
        autoFocus
        onClick={() => window.location.reload()}
      >
        Go on with what was put back
      </button>
    </section>
  );
}
