import './cases.css';
import { useEffect } from 'react';
import type { CaseFile } from '../../db/answers.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { landmark } from '../look/landmarks.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo, hrefOf } from '../route/route.ts';
import { FromCase } from '../samples/FromCase.tsx';
import { CaseDetailsForm } from './CaseDetailsForm.tsx';
import { HereBefore } from './HereBefore.tsx';
import { HistoryBlock } from './HistoryBlock.tsx';
import { PhotoBlock } from './PhotoBlock.tsx';
import { SaveParcel } from './SaveParcel.tsx';
import { sayDay, today } from './sayCase.ts';
import { type CaseState, useCase } from './useCase.ts';
import { WordBlock } from './WordBlock.tsx';

/** One case on a page: what the shop writes beside the sheet, its photographs, and what was said of it when. */
export function CaseScreen({ sheet }: { readonly sheet: SheetId }) {
  const { unit, sheet: onBench } = useBench();
  const state = useCase(sheet, unit.saving);
  const { file, trouble } = state;
  // Before the first save nothing is wrong.
  const noneYet = trouble?.code === 'not-found' && state.day === null && onBench.id === sheet;
  return (
    <main className="case-screen" {...landmark('own undo')}>
      <div className="case-page">
        <p className="small no-print">
          <a href={hrefOf({ screen: 'sheets' })}>All cases</a>
        </p>
        {file === null && trouble === null && <p className="soft">Fetching the case…</p>}
        {file === null && <h1 className="unseen">Case file</h1>}
        {trouble !== null && noneYet && (
          <>
            <p>This sheet has no case file yet. It becomes a case, with a number of its own, when it is saved.</p>
            <SaveFirst sheet={sheet} />
          </>
        )}
        {trouble !== null && !noneYet && (
          <TroubleNote
            lead={state.day === null ? 'There is no such case file.' : 'The case cannot be shown as of that day.'}
            trouble={trouble}
          >
            {state.day === null ? (
              <SaveFirst sheet={sheet} />
            ) : (
              <p>
                <button type="button" className="button" onClick={() => state.showAsOf(null)}>
                  Show it as it is today
                </button>
              </p>
            )}
          </TroubleNote>
        )}
        {file !== null && trouble === null && <CasePage key={sheet} file={file} state={state} />}
      </div>
    </main>
  );
}

/** A sheet on the bench becomes a case by being saved; that can be done from here. */
function SaveFirst({ sheet }: { readonly sheet: SheetId }) {
  const bench = useBench();
  const { save } = useBenchActions();
  if (bench.sheet.id !== sheet) return null;
  return (
    <p>
      <button type="button" className="button main" onClick={() => void save()}>
        Save the sheet on the bench
      </button>
    </p>
  );
}

function CasePage({ file, state }: { readonly file: CaseFile; readonly state: CaseState }) {
  const { takeUp, turnTo, openUnit } = useBenchActions();
  const past = state.day !== null;
  const last = file.history.at(-1) ?? null;
  const claim = last?.verdict.kind === 'verdict' ? last.verdict.claim : null;
  useEffect(() => {
    const before = document.title;
    document.title = `Case ${file.number}`;
    return () => {
      document.title = before;
    };
  }, [file.number]);

  const putOnBench = async () => {
    if (openUnit(file.sheet) !== null) return turnTo(file.sheet);
    const reply = await desk.ask('sheets.open', { id: file.sheet });
    if (!reply.ok) return;
    takeUp(reply.value.sheet, reply.value);
    goTo(file.kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
  };

  return (
    <>
      <header className="case-head">
        <h1 className="page-title">
          <span className="case-number-large">{file.number}</span> {file.title === '' ? 'untitled unit' : file.title}
        </h1>
        <p className="soft">
          opened {sayDay(file.openedOn)}
          {file.origins.length > 0 && ` · taken in, case ${file.origins.map(({ number }) => number).join(', then ')} where it came from`}
          {file.kind === 'planned' && <span className="tag">planned build</span>}
          {claim !== null && (
            <>
              {' '}
              · offered as <q>{claim.text}</q> <StatusMark status={claim.status} />
            </>
          )}
        </p>
        <div className="case-head-actions no-print">
          <button type="button" className="button" onClick={() => void putOnBench()}>
            Put it on the bench
          </button>
          <SaveParcel sheet={file.sheet} />
          <button type="button" className="button plain" onClick={() => window.print()}>
            Print the case
          </button>
        </div>
      </header>
      {last !== null && !past && <HereBefore sheet={last.sheet} />}
      <section className="as-of no-print" aria-label="As it stood on a day">
        <label>
          As it stood on{' '}
          <input
            className="field"
            type="date"
            min={file.openedOn}
            max={today()}
            value={state.day ?? ''}
            onChange={(event) => state.showAsOf(event.target.value === '' ? null : event.target.value)}
          />
        </label>
        {state.day !== null && (
          <>
            <b role="status">Shown as it stood at the end of {sayDay(state.day)}; nothing can be changed in the past.</b>
            <button type="button" className="button" onClick={() => state.showAsOf(null)}>
              Back to today
            </button>
          </>
        )}
      </section>
      {state.day !== null && <p className="print-only">As it stood at the end of {sayDay(state.day)}.</p>}
      <div className="case-columns">
        <div>
          <CaseDetailsForm key={state.day ?? 'today'} file={file} past={past} onSaved={state.put} />
          <WordBlock file={file} past={past} onSaved={state.put} />
          <PhotoBlock
            sheet={file.sheet}
            number={file.number}
            saved={last?.sheet ?? null}
            photos={file.photos}
            past={past}
            onPhotos={state.putPhotos}
          />
          {!past && file.kind === 'found' && <FromCase sheet={file.sheet} saved={file.history.length} />}
        </div>
        <HistoryBlock key={`${state.day} ${file.history.length}`} file={file} past={past} />
      </div>
    </>
  );
}
