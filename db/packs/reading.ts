import type { Faults } from '../read/faults.ts';
import type { Lookups } from './lookups.ts';
import type { MappedIds } from './mapping/mapped-ids.ts';
import type { PackFiles } from './read-files.ts';

/** A pack while its tables are read. */
export interface Reading {
  readonly from: PackFiles;
  readonly find: Lookups;
  readonly faults: Faults;
  /** Its ids as they are called here; null where they are called alike. */
  readonly ids: MappedIds | null;
}

/** A row with its ids as they are called here. Each column is called as what its ids lead to. */
export const mappedRow = <Cells extends Readonly<Record<string, string>>>(
  { row, cells }: { readonly row: number; readonly cells: Cells },
  columns: readonly (keyof Cells & string)[],
  ids: MappedIds | null,
): { readonly row: number; readonly cells: Cells } => {
  if (ids === null) return { row, cells };
  const called = columns.map((column) => [column, ids.idOf(column, cells[column] as string)] as const);
  return { row, cells: { ...cells, ...Object.fromEntries(called) } };
};
