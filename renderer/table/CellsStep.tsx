import { useState } from 'react';
import type { CellFault, TableLooked } from '../../electron/bridge/table-calls.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { useWindowKey } from '../look/useWindowKey.ts';
import { sayMany } from '../values/sayMany.ts';
import { FaultPanel } from './FaultPanel.tsx';
import { cellKey, keyOfFault, type Place } from './mending.ts';
import { TableGrid } from './TableGrid.tsx';
import type { TableWork } from './useTable.ts';

/** Every row with its cells; those that cannot be read are marked, and mended where they stand. */
export function CellsStep({ table }: { readonly table: TableWork }) {
  const { token, matching, matched, mended } = table;
  const asked = useAsk('table.read', token === null || matching === null ? null : { token, matching, mended }, 150);
  const looked = latest(asked);
  const [only, setOnly] = useState(true);
  const [at, setAt] = useState<Place | null>(null);
  const [touched, setTouched] = useState<ReadonlySet<number>>(new Set());
  /** Counts the times the focus was led to a cell by something else than the grid's own keys. */
  const [led, setLed] = useState(0);
  const faults = looked?.faults ?? [];
  const goTo = (fault: CellFault | undefined) => {
    if (fault === undefined) return;
    setAt({ row: fault.row, column: fault.column });
    setLed((count) => count + 1);
  };
  const next = (by: 1 | -1) => goTo(nextFault(faults, at, by));
  useNextKeys(next);
  if (token === null || matching === null || matched === null) return null;

  const byCell = new Map(faults.map((fault) => [keyOfFault(fault), fault]));
  const here = at === null ? null : (byCell.get(cellKey(at.row, at.column)) ?? null);
  const rows = only
    ? [...new Set([...faults.map(({ row }) => row), ...touched, ...mended.left])].sort((a, b) => a - b)
    : Array.from({ length: matched.rows }, (_, index) => matching.headings + 1 + index);
  const touch = (places: readonly number[]) => setTouched((before) => new Set([...before, ...places]));
  const write = (places: readonly Place[], text: string) => {
    touch(places.map(({ row }) => row));
    table.mend((before) => ({
      ...before,
      cells: { ...before.cells, ...Object.fromEntries(places.map(({ row, column }) => [cellKey(row, column), text])) },
      confirmed: before.confirmed.filter((key) => !places.some(({ row, column }) => cellKey(row, column) === key)),
    }));
    setLed((count) => count + 1);
  };

  return (
    <>
      <div className="table-fields table-about">
        <p role="status" aria-live="polite" data-state={asked.state}>
          {looked === null ? 'Reading the cells…' : sayLooked(looked)}
        </p>
        <fieldset className="table-only">
          <legend className="unseen">Rows to show</legend>
          <label>
            <input type="radio" name="table-only" checked={only} onChange={() => setOnly(true)} /> rows to mend
          </label>
          <label>
            <input type="radio" name="table-only" checked={!only} onChange={() => setOnly(false)} /> all rows
          </label>
        </fieldset>
        <button type="button" className="button" disabled={faults.length === 0} onClick={() => next(1)} title="F8">
          Next cell to mend
        </button>
        <button type="button" className="button main" disabled={looked === null || looked.edits === 0} onClick={() => table.go('change')}>
          {looked !== null && looked.counts.faulty > 0 ? 'Look at the change, without those rows' : 'Look at the change'}
        </button>
      </div>
      {asked.state === 'trouble' && <TroubleNote lead="The cells could not be read." trouble={asked.trouble} />}
      <div className="table-work">
        {rows.length === 0 && looked !== null ? (
          <p className="table-fine">
            {looked.counts.rows === 0 ? 'There are no rows below the headings.' : 'Every cell could be read. Nothing is to be mended.'}
          </p>
        ) : (
          <TableGrid
            token={token}
            matching={matching}
            headings={matched.headings}
            rows={rows}
            byCell={byCell}
            mended={mended}
            at={at}
            led={led}
            onAt={setAt}
            onWrite={(place, text) => write([place], text)}
          />
        )}
        <FaultPanel
          key={at === null ? '' : cellKey(at.row, at.column)}
          at={at}
          fault={here}
          faults={faults}
          name={at === null || at.column === null ? '' : `${columnName(at.column)}${at.row}`}
          mended={mended}
          onWrite={write}
          onConfirm={(place) => {
            touch([place.row]);
            table.mend((before) => ({ ...before, confirmed: [...before.confirmed, cellKey(place.row, place.column)] }));
            setLed((count) => count + 1);
          }}
          onLeave={(row, leave) => {
            touch([row]);
            table.mend((before) => ({ ...before, left: leave ? [...before.left, row] : before.left.filter((one) => one !== row) }));
            setLed((count) => count + 1);
          }}
          onAddMaker={(name) => {
            if (at !== null) touch([at.row]);
            table.mend((before) => ({ ...before, makers: [...before.makers, name] }));
            setLed((count) => count + 1);
          }}
        />
      </div>
    </>
  );
}

/** F8 and Shift+F8 lead to the next cell to mend, and to the one before, from wherever one is on the step; not out of a cell that is being written in. */
const useNextKeys = (next: (by: 1 | -1) => void): void =>
  useWindowKey((event) => {
    const { next: on, before } = keys.table.lines;
    const by = presses(event, on) ? 1 : presses(event, before) ? -1 : null;
    const writing = event.target instanceof Element && event.target.closest('[role="gridcell"] input') !== null;
    if (by === null || writing || document.querySelector('dialog[open]') !== null) return;
    event.preventDefault();
    next(by);
  });

const sayLooked = ({ counts, faultsInAll }: TableLooked): string => {
  const { rows, added, altered, same, left } = counts;
  const each = [
    [added, 'new'],
    [altered, 'altered'],
    [same, 'as the atlas has them'],
    [left, 'left out'],
  ] as const;
  const said = each
    .filter(([many]) => many > 0)
    .map(([many, how]) => `${many} ${how}`)
    .join(', ');
  return `${sayMany(rows, 'row')}${said === '' ? '' : `: ${said}`}. ${faultsInAll === 0 ? 'Nothing is to be mended.' : `${sayMany(faultsInAll, 'cell')} to mend.`}`;
};

/** The next of them behind a place, or before it; beyond the last the first. */
const nextFault = (faults: readonly CellFault[], at: Place | null, by: 1 | -1): CellFault | undefined => {
  const order = ({ row, column }: Place) => row * 1000 + (column ?? -1);
  const sorted = [...faults].sort((a, b) => order(a) - order(b));
  if (at === null) return by === 1 ? sorted[0] : sorted.at(-1);
  return by === 1
    ? (sorted.find((fault) => order(fault) > order(at)) ?? sorted[0])
    : (sorted.findLast((fault) => order(fault) < order(at)) ?? sorted.at(-1));
};
