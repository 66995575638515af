import './shelf.css';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { CaseSummary, SheetSummary } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { blankSheet, newSheetId } from '../bench/sheetEdits.ts';
import { desk } from '../bridge/desk.ts';
import { CaseList } from '../cases/CaseList.tsx';
import { sayMany } from '../cases/sayCase.ts';
import { useWho } from '../cases/useWho.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo, hrefOf, type Route } from '../route/route.ts';
import { fileNameOf, giveFile } from './giveFile.ts';
import { SheetRow } from './SheetRow.tsx';

type Question = { readonly about: 'remove'; readonly one: CaseSummary } | { readonly about: 'same id'; readonly sheet: Sheet };

/** A sheet as a row of either list names it. */
type Listed = Pick<SheetSummary, 'id' | 'title' | 'kind'>;

/** The shop's cases and the samples: opened, copied, removed, read from a file, written to one. */
export function ShelfScreen() {
  const bench = useBench();
  const { takeUp, keptNoMore } = useBenchActions();
  const [sheets, setSheets] = useState<readonly SheetSummary[] | null>(null);
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);
  const [question, setQuestion] = useState<Question | null>(null);
  const [said, setSaid] = useState('');
  const [who, sayWho] = useWho();
  const file = useRef<HTMLInputElement>(null);

  const list = useCallback(async () => {
    const reply = await desk.ask('sheets.list', {});
    if (reply.ok) setSheets(reply.value);
    else setTrouble({ lead: 'The sheets could not be listed.', trouble: reply.trouble });
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is kept on the bench changes when a sheet is saved, and the list with it.
  useEffect(() => {
    void list();
  }, [list, bench.unit.saving]);

  const putOnBench = (sheet: Sheet, kept: boolean) => {
    takeUp(sheet, kept);
    goTo(placeOf(sheet.kind));
  };
  const opened = async (id: SheetId, lead: string): Promise<Sheet | null> => {
    const reply = await desk.ask('sheets.open', { id });
    if (reply.ok) return reply.value;
    setTrouble({ lead, trouble: reply.trouble });
    return null;
  };
  const open = async (one: Listed) => {
    if (one.id === bench.sheet.id) return goTo(placeOf(one.kind));
    const sheet = await opened(one.id, 'The sheet could not be opened.');
    if (sheet !== null) putOnBench(sheet, true);
  };
  const copy = async (one: Listed) => {
    const sheet = await opened(one.id, 'The sheet could not be copied.');
    if (sheet === null) return;
    const reply = await desk.ask('sheets.save', {
      sheet: { ...sheet, id: newSheetId(), title: `Copy of ${sheet.title}`.slice(0, 300) },
      who,
    });
    if (!reply.ok) return setTrouble({ lead: 'The copy could not be saved.', trouble: reply.trouble });
    setSaid(`Copied as “${reply.value.title}”.`);
    await list();
  };
  const write = async (one: Listed) => {
    const sheet = one.id === bench.sheet.id ? bench.sheet : await opened(one.id, 'The sheet could not be read.');
    if (sheet === null) return;
    const reply = await desk.ask('sheets.write', { sheet });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be written.', trouble: reply.trouble });
    giveFile(fileNameOf(sheet), reply.value);
    setSaid(`Written: ${fileNameOf(sheet)}.`);
  };
  const remove = async (one: Listed) => {
    setQuestion(null);
    const reply = await desk.ask('sheets.remove', { id: one.id });
    if (!reply.ok) return setTrouble({ lead: 'The sheet could not be removed.', trouble: reply.trouble });
    if (one.id === bench.sheet.id) keptNoMore();
    setSaid(`Removed: ${titleOf(one.title)}.`);
    await list();
  };
  const read = async (picked: File) => {
    setTrouble(null);
    const reply = await desk.ask('sheets.read', { text: await picked.text(), file: picked.name });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be read as a sheet.', trouble: reply.trouble });
    if (sheets?.some(({ id }) => id === reply.value.id)) setQuestion({ about: 'same id', sheet: reply.value });
    else putOnBench(reply.value, false);
  };

  const samples = sheets?.filter(({ origin }) => origin === 'sample') ?? [];
  return (
    <main className="shelf-screen">
      <div className="shelf">
        <div className="shelf-head">
          <h1 className="page-title">Sheets</h1>
          <span role="status" className="soft">
            {said}
          </span>
          <label className="who-looks">
            Who looks
            <input
              className="field"
              maxLength={200}
              autoComplete="off"
              placeholder="your name"
              value={who}
              onChange={(event) => sayWho(event.target.value)}
            />
          </label>
          <a className="button" href={hrefOf({ screen: 'triage' })}>
            Triage of many…
          </a>
          <button type="button" className="button" onClick={() => file.current?.click()}>
            Read from a file…
          </button>
          <input
            ref={file}
            type="file"
            accept=".json,application/json"
            className="unseen"
            tabIndex={-1}
            aria-label="Sheet file"
            onChange={(event) => {
              const picked = event.target.files?.[0];
              // The same file may be read again after it was mended.
              event.target.value = '';
              if (picked !== undefined) void read(picked);
            }}
          />
          <button type="button" className="button main" onClick={() => putOnBench(blankSheet(newSheetId()), false)}>
            New sheet
          </button>
        </div>
        {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
        {sheets === null && trouble === null && <p className="soft">Fetching the sheets…</p>}
        {sheets !== null && (
          <CaseList
            version={sheets}
            benchSheet={bench.sheet.id}
            unsaved={bench.unsaved}
            onSaid={setSaid}
            onOpen={(one) => void open(listed(one))}
            onCopy={(one) => void copy(listed(one))}
            onWrite={(one) => void write(listed(one))}
            onRemove={(one) => setQuestion({ about: 'remove', one })}
          />
        )}
        {sheets !== null && (
          <section aria-labelledby="shelf-sample">
            <h2 id="shelf-sample" className="head">
              Samples
            </h2>
            <ul className="sheet-list">
              {samples.map((one) => (
                <SheetRow
                  key={one.id}
                  summary={one}
                  onBench={one.id === bench.sheet.id}
                  unsaved={one.id === bench.sheet.id && bench.unsaved}
                  onOpen={() => void open(one)}
                  onCopy={() => void copy(one)}
                  onWrite={() => void write(one)}
                />
              ))}
            </ul>
            {samples.length === 0 && <p className="soft">No samples in this atlas, or each has become a case.</p>}
          </section>
        )}
      </div>
      {question?.about === 'remove' && (
        <AskDialog
          title="Remove this sheet?"
          onLeave={() => setQuestion(null)}
          choices={[{ label: 'Remove it', tone: 'danger', run: () => void remove(listed(question.one)) }]}
        >
          <p>
            Case {question.one.number}, <b>{titleOf(question.one.title)}</b>, is removed for good with its{' '}
            {sayMany(question.one.observations, 'entry', 'entries')}, its history
            {question.one.photos > 0 && ` and ${sayMany(question.one.photos, 'photograph')}`}. Its number is not given again. Write it to a
            file first if the sheet may be wanted again.
          </p>
        </AskDialog>
      )}
      {question?.about === 'same id' && (
        <AskDialog
          title="This sheet is here already"
          onLeave={() => setQuestion(null)}
          choices={[
            {
              label: 'Read it as a copy',
              tone: 'main',
              run: () => {
                setQuestion(null);
                putOnBench({ ...question.sheet, id: newSheetId() }, false);
              },
            },
            {
              label: 'Let it take the place of the one here',
              tone: 'usual',
              run: () => {
                setQuestion(null);
                putOnBench(question.sheet, false);
              },
            },
          ]}
        >
          <p>
            The file holds <b>{titleOf(question.sheet.title)}</b>, whose id is that of a sheet on the shelf. Nothing is overwritten before
            you save.
          </p>
        </AskDialog>
      )}
    </main>
  );
}

export const titleOf = (title: string): string => (title === '' ? 'untitled unit' : title);

const listed = ({ sheet, title, kind }: CaseSummary): Listed => ({ id: sheet, title, kind });

/** A found unit is looked at as a unit; a build on paper is judged on the build bench. */
const placeOf = (kind: Sheet['kind']): Route => (kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
