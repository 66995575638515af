import './shelf.css';
import type { CaseSummary } from '../../db/answers.ts';
import { blankSheet } from '../../reasoner/plain/blank-sheet.ts';
import { useOpenUnits } from '../bench/BenchContext.ts';
import { newSheetId } from '../bench/sheetEdits.ts';
import { useWho } from '../bench/useWho.ts';
import { CaseList } from '../cases/CaseList.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { NothingYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { WhoField } from '../look/WhoField.tsx';
import { hrefOf } from '../route/route.ts';
import { SheetRow } from './SheetRow.tsx';
import { ShelfQuestion } from './ShelfQuestion.tsx';
import { TakeInCase } from './TakeInCase.tsx';
import { type Listed, type Shelf, useShelf } from './useShelf.ts';

/** The shop's cases and the samples: opened, copied, removed, read from a file, written to one. */
export function ShelfScreen() {
  const { units } = useOpenUnits();
  const isOpen = new Map(units.map((one) => [one.id, one]));
  const [who, sayWho] = useWho();
  const shelf = useShelf(who);
  const { sheets, trouble, question, say, open, copy, write } = shelf;
  const samples = sheets?.filter(({ origin }) => origin === 'sample') ?? [];
  return (
    <main className="shelf-screen">
      <div className="shelf">
        <ShelfHead shelf={shelf} who={who} sayWho={sayWho} />
        {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
        {sheets === null && trouble === null && <p className="soft">Fetching the sheets…</p>}
        {sheets !== null && (
          <CaseList
            version={sheets}
            isOpen={isOpen}
            onSaid={say}
            onOpen={(one) => void open(listed(one))}
            onCopy={(one) => void copy(listed(one))}
            onWrite={(one) => void write(listed(one))}
            onRemove={(one) => void shelf.askToRemove(one)}
          >
            <section aria-labelledby="shelf-sample">
              <h2 id="shelf-sample" className="head">
                Samples
              </h2>
              <ul className="sheet-list">
                {samples.map((one) => (
                  <SheetRow
                    key={one.id}
                    summary={one}
                    open={isOpen.get(one.id)}
                    onOpen={() => void open(one)}
                    onCopy={() => void copy(one)}
                    onWrite={() => void write(one)}
                  />
                ))}
              </ul>
              {samples.length === 0 && (
                <NothingYet>
                  <p>
                    No samples here. They come with a pack: the invented atlas has some, and goes in under{' '}
                    <a href={hrefOf({ screen: 'packs' })}>Packs</a>. A sample that was saved is among the cases.
                  </p>
                </NothingYet>
              )}
            </section>
          </CaseList>
        )}
      </div>
      {question !== null && <ShelfQuestion question={question} shelf={shelf} />}
    </main>
  );
}

interface HeadProps {
  readonly shelf: Shelf;
  readonly who: string;
  sayWho(who: string): void;
}

function ShelfHead({ shelf: { said, putOnBench, read }, who, sayWho }: HeadProps) {
  return (
    <div className="shelf-head">
      <h1 className="page-title">Sheets</h1>
      <span role="status" className="soft">
        {said}
      </span>
      <WhoField label="Who looks" who={who} onSay={sayWho} />
      <a className="button" href={hrefOf({ screen: 'settings' })}>
        The shop…
      </a>
      <a className="button" href={hrefOf({ screen: 'backups' })}>
        Backups…
      </a>
      <a className="button" href={hrefOf({ screen: 'listings' })}>
        Many listings…
      </a>
      <FileChooser
        label="Sheet file"
        of={{ accept: '.json,application/json' }}
        onChosen={([picked]) => {
          if (picked !== undefined) void read(picked);
        }}
      >
        Read from a file…
      </FileChooser>
      <TakeInCase who={who} />
      <button type="button" className="button main" onClick={() => putOnBench(blankSheet(newSheetId()), null)}>
        New sheet
      </button>
    </div>
  );
}

const listed = ({ sheet, title, kind }: CaseSummary): Listed => ({ id: sheet, title, kind });
