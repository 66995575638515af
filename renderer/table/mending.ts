import type { CellFault } from '../../electron/bridge/table-calls.ts';

export interface Place {
  readonly row: number;
  /** Null: the row itself. */
  readonly column: number | null;
}

/** A cell as what is said of it is kept by; the row itself where it is of no column. */
export const cellKey = (row: number, column: number | null): string => `${row}:${column ?? '-'}`;
export const keyOfFault = ({ row, column }: Pick<CellFault, 'row' | 'column'>): string => cellKey(row, column);
