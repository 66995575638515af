import Papa from 'papaparse';
import { entriesIn, type Pack } from '../atlas/pack.ts';
import type { Warning } from '../packs/warnings.ts';
import type { Fault } from '../read/faults.ts';
import type { Trouble } from '../trouble.ts';
import { editFault, whereText } from './entries.ts';
import type { EditFault, Suspicious } from './seen.ts';

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
  const rowIn = rowsOf(texts);
  return (all as readonly Fault[]).map(({ file, row, column, found, expected }) => {
    const { list, id, field } = placeOf(file, row, column, pack, rowIn);
    const edit = id === null ? undefined : (lastOf.get(list === 'allowed' ? `allowed ${id} ${field ?? ''}` : `${list} ${id}`) ?? null);
    return editFault(edit ?? null, list, id, field, found, expected);
  });
};

/** What is suspicious of the entries that were edited, and of no others, said of them. */
export const warningsOfEdits = (
  warnings: readonly Warning[],
  pack: Pack,
  texts: ReadonlyMap<string, string>,
  lastOf: ReadonlyMap<string, number>,
): Suspicious[] => {
  const rowIn = rowsOf(texts);
  return warnings.flatMap(({ code, file, row, column, found, means, likely }) => {
    const { list, id, field } = placeOf(file, row, column, pack, rowIn);
    if (id === null || !lastOf.has(list === 'allowed' ? `allowed ${id} ${field ?? ''}` : `${list} ${id}`)) return [];
    return [
      {
        code,
        place: `${list}/${id}`,
        file,
        row,
        column,
        found,
        means,
        sentence: `${whereText(list, id, field)}: ${found}. ${means}${likely === null ? '' : ` ${likely}`}`,
      },
    ];
  });
};

type RowIn = (file: string, row: number | null) => readonly string[];

const rowsOf = (texts: ReadonlyMap<string, string>): RowIn => {
  const tables = new Map<string, readonly (readonly string[])[]>();
  return (file, row) => {
    const rows = tables.get(file) ?? Papa.parse<string[]>(texts.get(file) ?? '', { delimiter: ',' }).data;
    tables.set(file, rows);
    return rows[(row ?? 0) - 1] ?? [];
  };
};

const fieldOfColumn: Readonly<Record<string, string>> = { pattern_of: 'patternOf' };

const placeOf = (
  file: string,
  row: number | null,
  column: string | null,
  pack: Pack,
  rowIn: RowIn,
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
  const entry = entriesIn(pack, list)[Number(index)];
  return { list, id: entry?.id ?? null, field: rest === undefined || rest === '' ? null : rest };
};
