import Papa from 'papaparse';
import type { Pack } from '../atlas/pack.ts';
import type { Fault } from '../read/faults.ts';
import type { Trouble } from '../trouble.ts';
import { editFault } from './entries.ts';
import type { EditFault } from './seen.ts';

/**
 * What a pack's own check finds of what edits come to, said of the entries and not of the files they would stand in.
 * @param texts what was checked
 * @param lastOf the last edit of each thing, by `list id`
 */
export const faultsOfPack = (
  { all = [] }: Trouble,
  pack: Pack,
  texts: ReadonlyMap<string, string>,
  lastOf: ReadonlyMap<string, number>,
): EditFault[] => {
  const tables = new Map<string, readonly (readonly string[])[]>();
  const rowIn = (file: string, row: number | null): readonly string[] => {
    const rows = tables.get(file) ?? Papa.parse<string[]>(texts.get(file) ?? '', { delimiter: ',' }).data;
    tables.set(file, rows);
    return rows[(row ?? 0) - 1] ?? [];
  };
  return (all as readonly Fault[]).map(({ file, row, column, found, expected }) => {
    const { list, id, field } = placeOf(file, row, column, pack, rowIn);
    const edit = id === null ? undefined : (lastOf.get(list === 'allowed' ? `allowed ${id} ${field ?? ''}` : `${list} ${id}`) ?? null);
    return editFault(edit ?? null, list, id, field, found, expected);
  });
};

const fieldOfColumn: Readonly<Record<string, string>> = { pattern_of: 'patternOf' };

const placeOf = (
  file: string,
  row: number | null,
  column: string | null,
  pack: Pack,
  rowIn: (file: string, row: number | null) => readonly string[],
): { readonly list: string; readonly id: string | null; readonly field: string | null } => {
  if (file === 'parts.csv') return { list: 'parts', id: rowIn(file, row)[0] ?? null, field: fieldOfColumn[column ?? ''] ?? column };
  if (file === 'facts.csv') {
    const [part = null, feature = ''] = rowIn(file, row);
    return { list: 'parts', id: part, field: `facts.${feature}` };
  }
  if (file === 'allowed.csv') {
    const [model = null, , part = null] = rowIn(file, row);
    return { list: 'allowed', id: model, field: part };
  }
  if (file.startsWith('sheets/')) return { list: 'sheets', id: file.slice('sheets/'.length).replace(/\.json$/, ''), field: column };
  const list = file.replace(/\.json$/, '');
  if (list === 'pack') return { list, id: pack.head.id, field: column };
  const [, index, rest] = /^\[(\d+)\]\.?(.*)$/s.exec(column ?? '') ?? [];
  const entry = (pack as unknown as Readonly<Record<string, readonly { readonly id: string }[] | undefined>>)[list]?.[Number(index)];
  return { list, id: entry?.id ?? null, field: rest === undefined || rest === '' ? null : rest };
};
