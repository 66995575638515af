import './listings.css';
import { useEffect, useRef, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { ListingsDone } from '../../electron/bridge/listings-calls.ts';
import type { ListingsRow, Standing } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { newSheetId } from '../bench/sheetEdits.ts';
import { desk } from '../bridge/desk.ts';
import { fetchParts } from '../bridge/fetchParts.ts';
import { FileChooser } from '../look/FileChooser.tsx';
import { giveBlob } from '../look/giveFile.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo, hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { Cautions } from '../verdict/Cautions.tsx';
import { chosenIn, handInListings, mostBytes, totalBytes } from './handedIn.ts';
import { ListingColumns } from './ListingColumns.tsx';
import { ListingsTable } from './ListingsTable.tsx';
import { PasteListings } from './PasteListings.tsx';
import { type ListingsStands, noteOpened, rowOpened, useListings } from './useListings.ts';

/** Listings gathered by the shop, all at once: which claims fail most plainly, and which are worth a closer look. */
export function ListingsScreen() {
  const { takeUp } = useBenchActions();
  const { stands, start, stop, look, setMatching, fetchMore, columnsAgain, forget, ofATable } = useListings();
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);
  const running = stands.state === 'running';
  const result = useRef<HTMLElement>(null);
  // Who pressed what is gone now goes on in the list.
  useEffect(() => {
    if (stands.state === 'done' && document.activeElement === document.body) result.current?.focus();
  }, [stands.state]);

  const notTaken = (code: string, sentence: string) =>
    setTrouble({ lead: 'Nothing was judged.', trouble: { code, place: null, sentence } as Trouble });
  const take = async (chosen: readonly File[]) => {
    setTrouble(null);
    setSaid('');
    forget();
    if (chosen.length === 0) return;
    const { files, tables, leftAlone } = await chosenIn(chosen);
    const [alone] = tables;
    if (alone !== undefined && tables.length === 1 && files.length === 0) {
      if (leftAlone.length > 0) sayLeftAlone(leftAlone);
      return takeTable(alone.name, alone.content);
    }
    if (totalBytes(chosen) > mostBytes)
      return notTaken(
        'too-much',
        'More than 10 MB at once is too much for the window. The command line takes any number: kinplate listings <folder>.',
      );
    if (leftAlone.length > 0) sayLeftAlone(leftAlone);
    const tokens: string[] = [];
    for (const { name, content } of tables) {
      const handed = await handInListings(name, content);
      if (!handed.ok) return setTrouble({ lead: 'Nothing was judged.', trouble: handed.trouble });
      tokens.push(handed.value);
    }
    await start({ files: [...files], tables: tokens.map((token) => ({ token, matching: null })), shelf: false });
  };
  const sayLeftAlone = (names: readonly string[]) => setSaid(`Left alone, no sheet or table by its name: ${names.join(', ')}.`);
  const takeTable = async (name: string, content: Blob) => {
    setTrouble(null);
    const handed = await handInListings(name, content);
    if (!handed.ok) return setTrouble({ lead: 'The table was not taken.', trouble: handed.trouble });
    await look(handed.value, { sheet: null, headings: null });
  };
  const open = async (row: ListingsRow, token: string) => {
    const reply = await desk.ask('listings.sheet', { token, source: row.source });
    if (!reply.ok) return setTrouble({ lead: 'The sheet could not be opened.', trouble: reply.trouble });
    noteOpened(row.source);
    // What came from the shelf is kept there, and is taken up as it is there now; what came from a file is not, before it is saved.
    const shelved = /^the (shelf|samples), /.test(row.source);
    const stored = shelved ? await desk.ask('sheets.open', { id: reply.value.id }) : null;
    if (stored?.ok === true) takeUp(stored.value.sheet, stored.value);
    else takeUp(row.offer === null ? reply.value : { ...reply.value, id: newSheetId() }, null);
    goTo(reply.value.kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
  };
  const write = async (token: string) => {
    const made = await desk.ask('listings.csv', { token });
    const fetched = made.ok
      ? await fetchParts(made.value.parts, (part) => desk.ask('listings.part', { token: made.value.token, part }))
      : made;
    if (!fetched.ok) return setTrouble({ lead: 'The table could not be written.', trouble: fetched.trouble });
    giveBlob('listings.csv', new Blob([...fetched.value], { type: 'text/csv' }));
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
              label="A table of listings, or sheets"
              of={{ accept: '.csv,.tsv,.txt,.xlsx,.json,text/csv,application/json', multiple: true }}
              disabled={running}
              onChosen={(files) => void take(files)}
            >
              A table of listings…
            </FileChooser>
            <FileChooser
              label="A folder of tables and sheets"
              of={{ webkitdirectory: '', multiple: true }}
              disabled={running}
              onChosen={(files) => void take(files)}
            >
              A folder…
            </FileChooser>
            <button
              type="button"
              className="button"
              disabled={running}
              onClick={() => {
                forget();
                void start({ files: [], tables: [], shelf: true });
              }}
            >
              All on the shelf
            </button>
          </div>
        </div>
        {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
        {stands.state === 'trouble' && <TroubleNote lead="The listings could not be judged." trouble={stands.trouble} />}
        {(stands.state === 'none' || stands.state === 'trouble') && (
          <PasteListings onPasted={(text) => void takeTable('pasted cells', new Blob([text]))} />
        )}
        {stands.state === 'columns' && (
          <ListingColumns
            matched={stands.matched}
            matching={stands.matching}
            onMatching={setMatching}
            onLook={(where) => void look(stands.table, where)}
            onJudge={() => void start({ files: [], tables: [{ token: stands.table, matching: stands.matching }], shelf: false })}
          />
        )}
        {stands.state === 'running' && <Running {...stands} onStop={stop} />}
        {stands.state === 'done' && (
          <section ref={result} tabIndex={-1} aria-label="Listings" data-state="done">
            <div className="listings-sum">
              <p>{summary(stands.listings)}</p>
              {ofATable && (
                <button type="button" className="button no-print" onClick={columnsAgain}>
                  Its columns
                </button>
              )}
              <button type="button" className="button no-print" onClick={() => window.print()}>
                Print the list
              </button>
              <button type="button" className="button no-print" onClick={() => void write(stands.token)}>
                Write the table (CSV)
              </button>
            </div>
            <ListingsTable
              key={stands.token}
              rows={stands.rows}
              inAll={stands.listings.rows}
              at={rowOpened()}
              onOpen={(row) => void open(row, stands.token)}
              onMore={() => void fetchMore()}
            />
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
      <progress aria-label="Listings judged" max={Math.max(1, progress.of)} value={progress.judged} />
      <button type="button" className="button" disabled={stopping} onClick={onStop}>
        Stop here
      </button>
    </div>
  );
}

/** A standing behind the number of its rows: of one, of several. */
const saidOf: Readonly<Record<Standing, readonly [string, string]>> = {
  'no name': ['with a name nobody makes', 'with names nobody makes'],
  'own words against it': ['whose own words speak against it', 'whose own words speak against them'],
  'ruled out': ['ruled out', 'ruled out'],
  open: ['open', 'open'],
  stands: ['that stands', 'that stand'],
  'nothing claimed': ['with nothing claimed', 'with nothing claimed'],
  contradiction: ['with entries that disagree', 'with entries that disagree'],
  'planned build': ['planned build', 'planned builds'],
  unreadable: ['that cannot be read', 'that cannot be read'],
  'not reached': ['not reached', 'not reached'],
};

const summary = ({ rows, counts, complete }: ListingsDone): string => {
  const each = counts.map((one) => `${one.rows} ${saidOf[one.standing][one.rows === 1 ? 0 : 1]}`).join(', ');
  return `${sayMany(rows, 'row')}: ${each}.${complete ? '' : ' Stopped before all were judged.'}`;
};
