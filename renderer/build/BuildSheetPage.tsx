import { useMemo } from 'react';
import type { PartId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Letterhead } from '../look/Letterhead.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { MachiningTable } from './MachiningTable.tsx';
import { PartsTable } from './PartsTable.tsx';

/** What stands in the tables is not said again in lines. */
const inTables: readonly string[] = ['Parts', 'Operations', 'Hours and cost'];

/** The sheet that goes to the bench with the build, as it is printed. */
export function BuildSheetPage({ stock }: { readonly stock: readonly PartId[] }) {
  const words = useWords();
  const { sheet } = useBench();
  const matters = useMemo(() => ({ ...whatMatters(sheet), title: sheet.title }), [sheet]);
  const asked = useAsk('build.sheet', { sheet: matters, stock: [...stock] }, 70);
  const answer = latest(asked);
  return (
    <div className="build-sheet-page">
      <div className="actions no-print">
        <button type="button" className="button main" disabled={answer === null} onClick={() => window.print()}>
          Print the build sheet
        </button>
      </div>
      {asked.state === 'trouble' && <TroubleNote lead="No sheet could be made." trouble={asked.trouble} />}
      {answer === null && asked.state === 'waiting' && <p className="soft">Writing the sheet…</p>}
      {answer !== null && (
        <article className="build-sheet" aria-label="Build sheet" data-state={asked.state}>
          <Letterhead onPaper />
          <p className="head">Build sheet</p>
          <h2 className="page-title">{answer.title === '' ? 'Untitled build' : answer.title}</h2>
          {sheet.story !== '' && <p className="build-story">{sheet.story}</p>}
          <PartsTable sheet={answer} stock={stock} />
          {answer.machining.map((one) => (
            <MachiningTable key={one.slot} machining={one} />
          ))}
          <div className="sheet-notes">
            {answer.sections
              .filter(({ heading }) => !inTables.includes(heading))
              .map(({ heading, lines }) => (
                <section key={heading}>
                  <h3 className="head">{heading}</h3>
                  <ul className="sheet-lines">
                    {lines.map((line) => (
                      <li key={line}>{line}</li>
                    ))}
                  </ul>
                </section>
              ))}
          </div>
          <footer className="small soft">
            <p className="signed">Built by, date</p>
            <p>
              Atlas: {words.vocabulary.packs.map((pack) => `${pack.title}, ${pack.edition}`).join('; ')}
              {words.vocabulary.packs.some((pack) => pack.invented) && '. Invented data'}
            </p>
          </footer>
        </article>
      )}
    </div>
  );
}
