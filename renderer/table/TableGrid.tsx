import { type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Cell, CellFault, Matching, Mended } from '../../electron/bridge/table-calls.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { cellKey, type Place } from './mending.ts';
import { useRows } from './useRows.ts';

const rowHeight = 30;
/** So many rows are drawn above and below what is seen. */
const beyond = 8;

interface Props {
  readonly token: string;
  readonly matching: Matching;
  readonly headings: readonly string[];
  /** The rows that are shown, as a spreadsheet counts. */
  readonly rows: readonly number[];
  readonly byCell: ReadonlyMap<string, CellFault>;
  readonly mended: Mended;
  readonly at: Place | null;
  readonly led: number;
  onAt(at: Place): void;
  onWrite(at: Place, text: string): void;
}

/**
 * Cells after the WAI-ARIA grid pattern: arrows go from cell to cell, Enter or typing writes into one, Escape leaves it as it was.
 * Of many rows those that are seen are drawn.
 */
export function TableGrid({ token, matching, headings, rows, byCell, mended, at, led, onAt, onWrite }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const [top, setTop] = useState(0);
  const [height, setHeight] = useState(600);
  const [, setShown] = useState(0);
  const [writing, setWriting] = useState<string | null>(null);
  const columns = matching.columns.flatMap((use, column) => (use.is === 'ignored' || use.is === 'as brought out' ? [] : [column]));
  const from = Math.max(0, Math.floor(top / rowHeight) - beyond);
  const to = Math.min(rows.length, Math.ceil((top + height) / rowHeight) + beyond);
  const cells = useRows(token, matching.sheet, rows.slice(from, to));
  const rowIndex = at === null ? 0 : Math.max(0, rows.indexOf(at.row));
  const active: Place = { row: rows[rowIndex] ?? 0, column: at === null ? (columns[0] ?? null) : at.column };

  useEffect(() => {
    const seen = box.current;
    if (seen === null) return;
    const watch = new ResizeObserver(() => setHeight(seen.clientHeight));
    watch.observe(seen);
    return () => watch.disconnect();
  }, []);
  // The focus follows as soon as the cell is drawn, before another key can come.
  const wantsFocus = useRef(false);
  useLayoutEffect(() => {
    if (!wantsFocus.current || writing !== null) return;
    const cell = box.current?.querySelector<HTMLElement>('[data-active]');
    if (cell == null) return;
    cell.focus({ preventScroll: true });
    wantsFocus.current = false;
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: whoever leads here brings the cell into sight, and the focus to it; the grid's own keys do so themselves.
  useLayoutEffect(() => {
    if (led > 0 && at !== null) show(at);
  }, [led]);

  const show = (place: Place) => {
    const index = rows.indexOf(place.row);
    const seen = box.current;
    if (seen === null || index < 0) return;
    const y = index * rowHeight;
    if (y < seen.scrollTop) seen.scrollTop = y;
    else if (y + rowHeight * 2 > seen.scrollTop + seen.clientHeight) seen.scrollTop = y + rowHeight * 3 - seen.clientHeight;
    wantsFocus.current = true;
    setTop(seen.scrollTop);
    setShown((count) => count + 1);
  };
  const move = (byRows: number, byColumns: number) => {
    const column = active.column === null ? -1 : columns.indexOf(active.column);
    const next = Math.min(columns.length - 1, Math.max(-1, column + byColumns));
    const place = {
      row: rows[Math.min(rows.length - 1, Math.max(0, rowIndex + byRows))] ?? active.row,
      column: next < 0 ? null : (columns[next] ?? null),
    };
    onAt(place);
    show(place);
  };
  const finish = (text: string | null) => {
    setWriting(null);
    wantsFocus.current = true;
    if (text !== null && active.column !== null) onWrite(active, text);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (writing !== null) {
      if (event.key === 'Enter' || event.key === 'Tab') {
        event.preventDefault();
        finish((event.target as HTMLInputElement).value);
      } else if (event.key === 'Escape') {
        event.preventDefault();
        event.stopPropagation();
        finish(null);
      }
      return;
    }
    const page = Math.max(1, Math.floor(height / rowHeight) - 2);
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowDown: [1, 0],
      ArrowUp: [-1, 0],
      ArrowRight: [0, 1],
      ArrowLeft: [0, -1],
      PageDown: [page, 0],
      PageUp: [-page, 0],
      Home: [0, -columns.length - 1],
      End: [0, columns.length + 1],
    };
    const step = steps[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    else if (step !== undefined) {
      event.preventDefault();
      move(...step);
    } else if (active.column !== null && (event.key === 'Enter' || event.key === 'F2')) {
      event.preventDefault();
      setWriting(textAt(active.row, active.column, cells.get(active.row), mended));
    } else if (active.column !== null && (event.key === 'Delete' || event.key === 'Backspace')) {
      event.preventDefault();
      onWrite(active, '');
    } else if (active.column !== null && event.key.length === 1) {
      event.preventDefault();
      setWriting(event.key);
    }
  };

  return (
    <div
      ref={box}
      className="table-grid-box"
      onScroll={(event) => {
        setTop(event.currentTarget.scrollTop);
      }}
    >
      <table
        className="table-grid"
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose cells are gone through and written into is a grid.
        role="grid"
        aria-label="Cells"
        aria-rowcount={rows.length + 1}
        // What is not drawn keeps its room.
        style={{ marginTop: from * rowHeight, marginBottom: (rows.length - to) * rowHeight }}
        onKeyDown={onKeyDown}
      >
        <thead>
          <tr aria-rowindex={1}>
            <th scope="col" className="table-grid-cell table-grid-head">
              <span className="unseen">Row</span>
            </th>
            {columns.map((column) => (
              <th key={column} scope="col" className="table-grid-cell table-grid-head" title={headings[column]}>
                <span className="faint">{columnName(column)}</span> {headings[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(from, to).map((row, index) => {
            const left = mended.left.includes(row);
            const whole = byCell.get(cellKey(row, null));
            const isAt = (column: number | null) => row === active.row && column === active.column;
            return (
              <tr key={row} aria-rowindex={from + index + 2} className={left ? 'is-left' : ''}>
                <th
                  scope="row"
                  tabIndex={isAt(null) ? 0 : -1}
                  data-active={isAt(null) ? '' : undefined}
                  className={`table-grid-cell table-grid-no ${whole === undefined ? '' : 'is-wrong'}`}
                  aria-invalid={whole === undefined ? undefined : true}
                  title={whole?.sentence}
                  onClick={() => onAt({ row, column: null })}
                >
                  {row}
                </th>
                {columns.map((column) => {
                  const fault = byCell.get(cellKey(row, column));
                  const key = cellKey(row, column);
                  const was = Object.hasOwn(mended.cells, key) || mended.confirmed.includes(key);
                  const own = isAt(column);
                  return (
                    // biome-ignore lint/a11y/useKeyWithClickEvents: the grid handles the keys of its cells.
                    <td
                      key={column}
                      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a cell of a grid.
                      role="gridcell"
                      tabIndex={own ? 0 : -1}
                      data-active={own ? '' : undefined}
                      className={`table-grid-cell ${fault !== undefined ? (fault.confirm === null ? 'is-wrong' : 'is-asked') : was ? 'is-mended' : ''}`}
                      aria-invalid={fault === undefined ? undefined : true}
                      title={fault?.sentence}
                      onClick={() => onAt({ row, column })}
                      onDoubleClick={() => {
                        onAt({ row, column });
                        setWriting(textAt(row, column, cells.get(row), mended));
                      }}
                    >
                      {own && writing !== null ? (
                        <input
                          // biome-ignore lint/a11y/noAutofocus: whoever begins to write into a cell writes there.
                          autoFocus
                          aria-label={`Cell ${columnName(column)}${row}`}
                          defaultValue={writing}
                          onFocus={(event) => event.target.setSelectionRange(writing.length, writing.length)}
                          onBlur={(event) => {
                            if (writing !== null) {
                              setWriting(null);
                              onWrite(active, event.target.value);
                            }
                          }}
                        />
                      ) : (
                        textAt(row, column, cells.get(row), mended)
                      )}
                    </td>
                  );
                })}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

const textAt = (row: number, column: number, cells: readonly Cell[] | undefined, { cells: instead }: Mended): string =>
  instead[cellKey(row, column)] ?? cells?.[column]?.text ?? '';
