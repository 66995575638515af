import './listings.css';
import { useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Listings, ListingsRow } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { FileChooser } from '../look/FileChooser.tsx';
import { giveFile } from '../look/giveFile.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo, hrefOf } from '../route/route.ts';
import { Cautions } from '../verdict/Cautions.tsx';
import { handedIn, mostBytes, totalBytes } from './handedIn.ts';
import { ListingsTable } from './ListingsTable.tsx';
import { type ListingsStands, useListings } from './useListings.ts';

/** Listings gathered by the shop, all at once: which claims fail most plainly, and which are worth a closer look. */
export function ListingsScreen() {
  const { takeUp } = useBenchActions();
  const { stands, start, stop } = useListings();
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);
  const running = stands.state === 'running';

  const take = async (chosen: readonly File[]) => {
    setTrouble(null);
    setSaid('');
    if (chosen.length === 0) return;
    if (totalBytes(chosen) > mostBytes) {
      const sentence = 'More than 10 MB at once is too much for the window. The command line takes any number: kinplate listings <folder>.';
      return setTrouble({ lead: 'Nothing was judged.', trouble: { code: 'too-much', place: null, sentence } });
    }
    const handed = await handedIn(chosen);
    if (handed.leftAlone.length > 0) setSaid(`Left alone, no sheet or table by its name: ${handed.leftAlone.join(', ')}.`);
    await start({ files: [...handed.files], shelf: false });
  };
  const open = async (row: ListingsRow, token: string) => {
    const reply = await desk.ask('listings.sheet', { token, source: row.source });
    if (!reply.ok) return setTrouble({ lead: 'The sheet could not be opened.', trouble: reply.trouble });
    // What came from the shelf is kept there, and is taken up as it is there now; what came from a file is not, before it is saved.
    const shelved = /^the (shelf|samples), /.test(row.source);
    const stored = shelved ? await desk.ask('sheets.open', { id: reply.value.id }) : null;
    if (stored?.ok === true) takeUp(stored.value.sheet, stored.value);
    else takeUp(reply.value, null);
    goTo(reply.value.kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
  };
  const write = async (token: string) => {
    const reply = await desk.ask('listings.csv', { token });
    if (!reply.ok) return setTrouble({ lead: 'The table could not be written.', trouble: reply.trouble });
    giveFile('listings.csv', reply.value, 'text/csv');
    setSaid('Written: listings.csv.');
  };

  return (
    <main className="listings-screen">
      <div className="listings">
        <div className="listings-head">
          <h1 className="page-title">Many listings</h1>
          <a className="no-print" href={hrefOf({ screen: 'sheets' })}>
            Back to the sheets
          </a>
          <span role="status" className="soft listings-said">
            {said}
          </span>
          <div className="listings-ways no-print">
            <FileChooser
              label="Sheets and tables"
              of={{ accept: '.json,.csv,application/json,text/csv', multiple: true }}
              disabled={running}
              onChosen={(files) => void take(files)}
            >
              Sheets and tables…
            </FileChooser>
            <FileChooser
              label="A folder of sheets and tables"
              of={{ webkitdirectory: '', multiple: true }}
              disabled={running}
              onChosen={(files) => void take(files)}
            >
              A folder…
            </FileChooser>
            <button type="button" className="button" disabled={running} onClick={() => void start({ files: [], shelf: true })}>
              All on the shelf
            </button>
          </div>
        </div>
        {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
        {stands.state === 'trouble' && <TroubleNote lead="The listings could not be judged." trouble={stands.trouble} />}
        {stands.state === 'none' && <Beginning />}
        {stands.state === 'running' && <Running {...stands} onStop={stop} />}
        {stands.state === 'done' && (
          <section aria-label="Listings" data-state="done">
            <div className="listings-sum">
              <p>{summary(stands.listings)}</p>
              <button type="button" className="button no-print" onClick={() => window.print()}>
                Print the list
              </button>
              <button type="button" className="button no-print" onClick={() => void write(stands.token)}>
                Write the table (CSV)
              </button>
            </div>
            <ListingsTable rows={stands.listings.rows} onOpen={(row) => void open(row, stands.token)} />
            <Cautions cautions={stands.listings.cautions} />
          </section>
        )}
      </div>
    </main>
  );
}

type RunningProps = Extract<ListingsStands, { state: 'running' }> & { onStop(): void };

function Running({ stopping, progress, onStop }: RunningProps) {
  return (
    <div className="listings-running">
      <p role="status">
        {stopping ? 'Stopping… ' : ''}
        {progress.judged} of {progress.of} judged
      </p>
      <progress aria-label="Sheets judged" max={Math.max(1, progress.of)} value={progress.judged} />
      <button type="button" className="button" disabled={stopping} onClick={onStop}>
        Stop here
      </button>
    </div>
  );
}

const summary = ({ rows, complete }: Listings): string => {
  const counts = new Map<string, number>();
  for (const { standing } of rows) counts.set(standing, (counts.get(standing) ?? 0) + 1);
  const each = [...counts].map(([standing, count]) => `${count} ${standing}`).join(', ');
  return `${rows.length} ${rows.length === 1 ? 'sheet' : 'sheets'}: ${each}.${complete ? '' : ' Stopped before all were judged.'}`;
};

function Beginning() {
  return (
    <div className="listings-words">
      <p>
        Hand in sheets as files (.json), tables (.csv, one row for each entry), or a whole folder of both. Each is judged by itself, and the
        list begins with the claims that fail most plainly: names nobody makes, then those the parts rule out with the least to look at.
        Nothing is saved, and a sheet that cannot be read is listed with what is wrong in it.
      </p>
      <p className="small soft">
        A table has the columns unit, title, maker, claimed, slot, feature, value, how, u, note. What a listing says is <i>told</i>; what
        its photograph shows is <i>seen</i>.
      </p>
    </div>
  );
}
