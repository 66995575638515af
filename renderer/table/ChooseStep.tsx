import { useState } from 'react';
import type { TableKind } from '../../electron/bridge/table-calls.ts';
import { FileChooser } from '../look/FileChooser.tsx';
import { MadeNote } from './MadeNote.tsx';
import type { TableWork } from './useTable.ts';
import { WriteTable } from './WriteTable.tsx';

const kinds: readonly (readonly [TableKind, string, string])[] = [
  ['parts', 'Parts', 'one row a part; a column for its number, maker, and each of its features'],
  ['models', 'Models', 'one row a model; a column for each slot, with the parts that may sit there'],
  ['facts', 'Facts', 'one row a fact: part, feature, what it is'],
];

/** What is brought in: a file or cells that were copied; and beside it the way out. */
export function ChooseStep({ table }: { readonly table: TableWork }) {
  const [pasted, setPasted] = useState('');
  return (
    <div className="table-choose">
      {table.made !== null && <MadeNote made={table.made} />}
      <section aria-labelledby="table-in">
        <h2 id="table-in">Into the atlas</h2>
        <fieldset className="table-kinds">
          <legend>What its rows are</legend>
          {kinds.map(([kind, label, says]) => (
            <label key={kind}>
              <input type="radio" name="table-kind" checked={table.kind === kind} onChange={() => table.setKind(kind)} />
              <b>{label}</b> <span className="soft">{says}</span>
            </label>
          ))}
        </fieldset>
        <p>
          <FileChooser
            label="Spreadsheet"
            of={{ accept: '.xlsx,.csv,.tsv,.txt,text/csv' }}
            className="button main"
            disabled={table.busy}
            onChosen={([picked]) => {
              if (picked !== undefined) void table.handIn(picked.name, picked);
            }}
          >
            Choose a spreadsheet…
          </FileChooser>{' '}
          <span className="soft">a workbook (.xlsx), or a CSV with commas, semicolons, tabs or pipes</span>
        </p>
        <label className="table-paste">
          Or copy the cells where they are, headings too, and paste them here
          <textarea
            className="field"
            rows={4}
            spellCheck={false}
            value={pasted}
            onChange={(event) => setPasted(event.target.value)}
            onPaste={(event) => {
              const text = event.clipboardData.getData('text/plain');
              if (pasted !== '' || text.trim() === '') return;
              event.preventDefault();
              void table.handIn('pasted cells', new Blob([text]));
            }}
          />
        </label>
        {pasted.trim() !== '' && (
          <p>
            <button
              type="button"
              className="button"
              disabled={table.busy}
              onClick={() => void table.handIn('pasted cells', new Blob([pasted]))}
            >
              Read these cells
            </button>
          </p>
        )}
        <p role="status" className="soft">
          {table.busy ? 'Reading the table…' : ''}
        </p>
        <p className="soft small">Nothing is changed before you have seen what it comes to.</p>
      </section>
      <WriteTable />
    </div>
  );
}
