import './shelf.css';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { SheetSummary } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo, type Route } from '../route/route.ts';
import { blankSheet } from '../sheet/sheetEdits.ts';
import { useBench } from '../sheet/UnitContext.ts';
import { newSheetId } from '../sheet/useBenchState.ts';
import { fileNameOf, giveFile } from './giveFile.ts';
import { SheetRow } from './SheetRow.tsx';

type Question = { readonly about: 'remove'; readonly summary: SheetSummary } | { readonly about: 'same id'; readonly sheet: Sheet };

/** The shop's sheets and the samples: opened, copied, removed, read from a file, written to one. */
export function ShelfScreen() {
  const bench = useBench();
  const [sheets, setSheets] = useState<readonly SheetSummary[] | null>(null);
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);
  const [question, setQuestion] = useState<Question | null>(null);
  const [said, setSaid] = useState('');
  const file = useRef<HTMLInputElement>(null);

  const list = useCallback(async () => {
    const reply = await desk.ask('sheets.list', {});
    if (reply.ok) setSheets(reply.value);
    else setTrouble({ lead: 'The sheets could not be listed.', trouble: reply.trouble });
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is kept on the bench changes when a sheet is saved, and the list with it.
  useEffect(() => {
    void list();
  }, [list, bench.unit.kept]);

  const putOnBench = (sheet: Sheet, kept: boolean) => {
    bench.takeUp(sheet, kept);
    goTo(placeOf(sheet.kind));
  };
  const opened = async (id: SheetId, lead: string): Promise<Sheet | null> => {
    const reply = await desk.ask('sheets.open', { id });
    if (reply.ok) return reply.value;
    setTrouble({ lead, trouble: reply.trouble });
    return null;
  };
  const open = async (summary: SheetSummary) => {
    if (summary.id === bench.sheet.id) return goTo(placeOf(summary.kind));
    const sheet = await opened(summary.id, 'The sheet could not be opened.');
    if (sheet !== null) putOnBench(sheet, true);
  };
  const copy = async (summary: SheetSummary) => {
    const sheet = await opened(summary.id, 'The sheet could not be copied.');
    if (sheet === null) return;
    const reply = await desk.ask('sheets.save', { sheet: { ...sheet, id: newSheetId(), title: `Copy of ${sheet.title}`.slice(0, 300) } });
    if (!reply.ok) return setTrouble({ lead: 'The copy could not be saved.', trouble: reply.trouble });
    setSaid(`Copied as “${reply.value.title}”.`);
    await list();
  };
  const write = async (summary: SheetSummary) => {
    const sheet = summary.id === bench.sheet.id ? bench.sheet : await opened(summary.id, 'The sheet could not be read.');
    if (sheet === null) return;
    const reply = await desk.ask('sheets.write', { sheet });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be written.', trouble: reply.trouble });
    giveFile(fileNameOf(sheet), reply.value);
    setSaid(`Written: ${fileNameOf(sheet)}.`);
  };
  const remove = async (summary: SheetSummary) => {
    setQuestion(null);
    const reply = await desk.ask('sheets.remove', { id: summary.id });
    if (!reply.ok) return setTrouble({ lead: 'The sheet could not be removed.', trouble: reply.trouble });
    if (summary.id === bench.sheet.id) bench.keptNoMore();
    setSaid(`Removed: ${titleOf(summary.title)}.`);
    await list();
  };
  const read = async (picked: File) => {
    setTrouble(null);
    const reply = await desk.ask('sheets.read', { text: await picked.text(), file: picked.name });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be read as a sheet.', trouble: reply.trouble });
    if (sheets?.some((one) => one.id === reply.value.id)) setQuestion({ about: 'same id', sheet: reply.value });
    else putOnBench(reply.value, false);
  };

  return (
    <main className="shelf-screen">
      <div className="shelf">
        <div className="shelf-head">
          <h1 className="page-title">Sheets</h1>
          <span role="status" className="soft">
            {said}
          </span>
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
        {sheets !== null &&
          (['own', 'sample'] as const).map((origin) => (
            <section key={origin} aria-labelledby={`shelf-${origin}`}>
              <h2 id={`shelf-${origin}`} className="head">
                {origin === 'own' ? 'The shop’s own' : 'Samples'}
              </h2>
              <ul className="sheet-list">
                {sheets
                  .filter((one) => one.origin === origin)
                  .map((one) => (
                    <SheetRow
                      key={one.id}
                      summary={one}
                      onBench={one.id === bench.sheet.id}
                      unsaved={one.id === bench.sheet.id && bench.unsaved}
                      onOpen={() => void open(one)}
                      onCopy={() => void copy(one)}
                      onWrite={() => void write(one)}
                      onRemove={() => setQuestion({ about: 'remove', summary: one })}
                    />
                  ))}
              </ul>
              {sheets.every((one) => one.origin !== origin) && (
                <p className="soft">
                  {origin === 'own' ? 'Nothing saved yet. A sample becomes the shop’s own when it is saved.' : 'No samples in this atlas.'}
                </p>
              )}
            </section>
          ))}
      </div>
      {question?.about === 'remove' && (
        <AskDialog
          title="Remove this sheet?"
          onLeave={() => setQuestion(null)}
          choices={[{ label: 'Remove it', tone: 'danger', run: () => void remove(question.summary) }]}
        >
          <p>
            <b>{titleOf(question.summary.title)}</b>, with {question.summary.observations}{' '}
            {question.summary.observations === 1 ? 'entry' : 'entries'}, is removed for good. Write it to a file first if it may be wanted
            again.
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

/** A found unit is looked at as a unit; a build on paper is judged on the build bench. */
const placeOf = (kind: Sheet['kind']): Route => (kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
