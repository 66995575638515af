import { useId, useState } from 'react';
import type { CellFault, Mended } from '../../electron/bridge/table-calls.ts';
import { sayMany } from '../values/sayMany.ts';
import { cellKey, type Place } from './mending.ts';

interface Props {
  readonly at: Place | null;
  readonly fault: CellFault | null;
  readonly faults: readonly CellFault[];
  /** `C12`. */
  readonly name: string;
  readonly mended: Mended;
  onWrite(places: readonly Place[], text: string): void;
  onConfirm(at: Place): void;
  onLeave(row: number, leave: boolean): void;
  onAddMaker(name: string): void;
}

/** What is wrong with the cell one is at, what may have been meant, and the ways to mend it, in it alone or wherever its column says the same. */
export function FaultPanel({ at, fault, faults, name, mended, onWrite, onConfirm, onLeave, onAddMaker }: Props) {
  const id = useId();
  const [text, setText] = useState('');
  const left = at !== null && mended.left.includes(at.row);
  if (at === null)
    return (
      <aside className="table-panel" aria-label="The cell">
        <p className="soft">Go to a marked cell: F8 leads to the next one, and what is wrong with it is said here.</p>
        <p className="soft small">In the grid: arrows go from cell to cell, Enter or typing writes into one, Escape leaves it as it was.</p>
      </aside>
    );
  const saysSame =
    fault === null || fault.column === null ? [] : faults.filter((one) => one.column === fault.column && one.found === fault.found);
  const found = fault?.found ?? '';
  const bare = /^"(.*)"$/.exec(found)?.[1] ?? '';
  const isMended = at.column !== null && Object.hasOwn(mended.cells, cellKey(at.row, at.column));
  return (
    <aside className="table-panel" aria-label="The cell">
      <h2 className="head">{at.column === null ? `Row ${at.row}` : `Cell ${name}`}</h2>
      <div aria-live="polite">
        {fault === null ? (
          <p className="soft">{left ? 'This row is left out.' : isMended ? 'Mended.' : 'Nothing is wrong here.'}</p>
        ) : (
          <p>{fault.sentence}</p>
        )}
      </div>
      {fault !== null && fault.column !== null && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            onWrite([at], text);
          }}
        >
          {fault.likely.length > 0 && (
            <ul className="table-likely">
              {fault.likely.map((likely) => (
                <li key={likely.text}>
                  <button type="button" className="button" onClick={() => setText(likely.text)}>
                    {likely.text === '' ? 'nothing' : likely.text}
                  </button>{' '}
                  <span className="small soft">{likely.why}</span>
                </li>
              ))}
            </ul>
          )}
          <label htmlFor={id}>Write instead</label>
          <input
            id={id}
            className="field"
            value={text}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => setText(event.target.value)}
          />
          <p className="table-ways">
            <button type="submit" className="button">
              In this cell
            </button>
            {saysSame.length > 1 && (
              <button type="button" className="button" onClick={() => onWrite(saysSame, text)}>
                In all {saysSame.length} that say so
              </button>
            )}
          </p>
          {fault.confirm !== null && (
            <p>
              <button type="button" className="button" onClick={() => onConfirm(at)}>
                {fault.confirm === 'hard to believe' ? 'It is right: there are parts like that' : 'The sheet is right, not the atlas'}
              </button>
            </p>
          )}
          {fault.add === 'maker' && bare !== '' && (
            <p>
              <button type="button" className="button" onClick={() => onAddMaker(bare)}>
                Add “{bare}” as a new maker
              </button>
              {saysSame.length > 1 && <span className="small soft"> for {sayMany(saysSame.length, 'row')}</span>}
            </p>
          )}
        </form>
      )}
      <p className="table-leave">
        <button type="button" className="button bare" onClick={() => onLeave(at.row, !left)}>
          {left ? `Take row ${at.row} in again` : `Leave row ${at.row} out`}
        </button>
      </p>
    </aside>
  );
}
