import './packs.css';
import '../backups/backups.css';
import { type ReactNode, useEffect, useState } from 'react';
import type { Backup } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { BackupList } from '../backups/BackupList.tsx';
import { RestoreView } from '../backups/RestoreView.tsx';
import { sayHolds } from '../backups/sayBackup.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';

interface Props {
  /** Why there is no atlas. */
  readonly missing: Trouble;
  readonly help: ReactNode;
  /** There is one now. */
  onThere(): void;
}

/** There was an atlas here, and its file is gone: what stands in its place is asked here, and nowhere else. Nothing that is left is deleted by any of it. */
export function MissingScreen({ missing, help, onThere }: Props) {
  const [working, setWorking] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [choosing, setChoosing] = useState(false);
  const [chosen, setChosen] = useState<Backup | null>(null);
  const asked = useAsk('backups.list', {});
  const list = latest(asked)?.backups ?? null;
  const newest = list?.find(({ state }) => state.kind === 'sound') ?? null;
  // Another window, or another program, may have settled it.
  const changes = useAtlasChanges();
  // biome-ignore lint/correctness/useExhaustiveDependencies: only that there is news.
  useEffect(() => {
    if (changes > 0) onThere();
  }, [changes]);
  const settle = async (doing: string, ask: () => Promise<{ readonly ok: true } | { readonly ok: false; readonly trouble: Trouble }>) => {
    setTrouble(null);
    setWorking(doing);
    const reply = await ask();
    setWorking(null);
    if (reply.ok || reply.trouble.code === 'changed-since') return onThere();
    setTrouble(reply.trouble);
  };
  return (
    <main className="first-screen">
      <header>
        <p className="first-word">Kinplate</p>
        <h1>The atlas is gone</h1>
        <p className="soft">{missing.sentence}</p>
        <p>
          If you moved it, close Kinplate, move it back and start again. Otherwise one of these. None of them deletes anything that is in
          the folder.
        </p>
        <p className="first-help">{help}</p>
      </header>
      {trouble !== null && <TroubleNote lead="The atlas could not be put there." trouble={trouble} />}
      {asked.state === 'trouble' && <TroubleNote lead="The backups could not be listed." trouble={asked.trouble} />}
      <div className="first-choices">
        <section className="first-choice" aria-labelledby="missing-newest">
          <h2 id="missing-newest">Put the newest backup back</h2>
          {newest === null || newest.state.kind !== 'sound' ? (
            <p>{list === null ? 'Looking at the backups…' : 'There is no backup here that can be read.'}</p>
          ) : (
            <>
              <p>
                It was made {sayInstant(newest.at)} and holds {sayHolds(newest.state.counts)}. A copy of it becomes the atlas; the backup
                stays where it is. What was entered after that is not in it.
              </p>
              <button
                type="button"
                className="button main"
                disabled={working !== null}
                onClick={() =>
                  void settle('Putting the backup back…', () => desk.ask('backups.restore', { name: newest.name, madeAgainst: null }))
                }
              >
                Put the newest backup back
              </button>
            </>
          )}
        </section>
        {list !== null && list.length > 1 && (
          <section className="first-choice" aria-labelledby="missing-another">
            <h2 id="missing-another">Choose another backup</h2>
            <p>Each is told with what it holds, and what would come back, before any is put back.</p>
            {choosing ? (
              <BackupList backups={list} chosen={chosen?.name ?? null} onChoose={setChosen} />
            ) : (
              <button type="button" className="button" onClick={() => setChoosing(true)}>
                Choose another backup…
              </button>
            )}
            {chosen !== null && <RestoreView key={chosen.name} backup={chosen} onRestored={onThere} onLeave={() => setChosen(null)} />}
          </section>
        )}
        <section className="first-choice" aria-labelledby="missing-anew">
          <h2 id="missing-anew">Begin anew</h2>
          <p>
            A new atlas that holds nothing, with no sheets, no cases and no stock, and numbers of cases counted from the beginning. What it
            is filled with is asked next. The backups stay, and any of them can still be put back later.
          </p>
          <button
            type="button"
            className="button"
            disabled={working !== null}
            onClick={() => void settle('Beginning anew…', () => desk.ask('backups.anew', {}))}
          >
            Begin anew
          </button>
        </section>
      </div>
      <p role="status" className="soft first-said">
        {working ?? ''}
      </p>
    </main>
  );
}
