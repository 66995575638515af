import { type Cell, type CellKey, type Cells, keyOf, type Said, stepsOf } from '../atlas/cell.ts';
import type { List, Named, Values } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Allowance, Pack, PackHead } from '../atlas/pack.ts';
import { headSchema } from '../atlas/schemas.ts';
import { sheetSchema } from '../sheets/schema.ts';
import { placesFor } from './places.ts';

/** Where a cell stood among others before, if it did. */
export type Had = (key: CellKey) => number | undefined;

export const hadIn =
  (cells: Cells): Had =>
  (key) =>
    cells.get(key)?.at;

/**
 * What a pack says, cell by cell; `packOf` makes the pack again.
 * @param had places that are kept as far as the order allows, so that one more part is one more part and nothing else
 */
export const cellsOf = (pack: Pack, had: Had = () => undefined): Cells => {
  const cells = new Map<CellKey, Cell>();
  const { format: _format, version: _version, id: _id, ...head } = headSchema.parse(pack.head);
  for (const [field, is] of Object.entries(head)) cells.set(keyOf('pack', field), { is });
  for (const list of listsAndParts) cellsOfList(list, pack[list.name], had, cells);
  for (const { model, part, slot, role } of pack.allowed) cells.set(keyOf('allowed', model, part), { is: { slot, role } });
  place(
    pack.sheets.map((sheet) => [keyOf('sheets', sheet.id), sheetSchema.parse(sheet) as Said]),
    had,
    cells,
  );
  return cells;
};

const cellsOfList = (list: List & { readonly name: string }, entries: readonly Named[], had: Had, cells: Map<CellKey, Cell>): void => {
  place(
    entries.map(({ id }) => [keyOf(list.name, id), true]),
    had,
    cells,
  );
  const keyed = new Set(list.keyed.flatMap(({ fields }) => fields));
  for (const unordered of entries) {
    // Parsing puts the fields in the order of the schema.
    const entry = list.schema.parse(unordered);
    for (const { name } of list.fields) {
      const is = (entry as Named & Values)[name];
      if (name !== 'id' && !keyed.has(name) && is !== null && is !== undefined)
        cells.set(keyOf(list.name, entry.id, name), { is: is as Said });
    }
    for (const { fields, ordered, linesOf } of list.keyed) {
      const lines = linesOf(entry).map(([key, is]) => [keyOf(list.name, entry.id, fields[0], key), is] as const);
      if (ordered) place(lines, had, cells);
      else for (const [key, is] of lines) cells.set(key, { is });
    }
  }
};

const place = (lines: readonly (readonly [CellKey, Said])[], had: Had, cells: Map<CellKey, Cell>): void => {
  const places = placesFor(
    lines.map(([key]) => key),
    had as (key: string) => number | undefined,
  );
  for (const [key, is] of lines) cells.set(key, { is, at: places.get(key) as number });
};

/**
 * The pack that says these cells. It is as whole as they are: what lacks a field that must be there is refused by the pack's own check, not here.
 * @param id of the pack, which no cell says
 */
export const packOf = (id: string, cells: Cells): Pack => {
  const head: Record<string, Said> = {};
  const entries = new Map<string, Map<string, Gathered>>(listsAndParts.map(({ name }) => [name, new Map()]));
  const allowed: Allowance[] = [];
  const sheets: [CellKey, Cell][] = [];
  for (const [key, cell] of cells) {
    const [list, first, field, line] = stepsOf(key);
    if (list === 'pack') head[first] = cell.is;
    else if (list === 'sheets') sheets.push([key, cell]);
    else if (list === 'allowed') allowed.push({ model: first, part: field, ...(cell.is as object) } as unknown as Allowance);
    else gather(entries.get(list) ?? unknownList(list), first, field, line, cell);
  }
  const lists = listsAndParts.map((list) => [
    list.name,
    [...(entries.get(list.name) ?? [])].sort(inPlace).map(([of, found]) => entryOf(list, of, found)),
  ]);
  return {
    head: { format: 'kinplate atlas pack', version: 1, id, ...head } as unknown as PackHead,
    allowed,
    sheets: sheets.sort(inPlace).map(([, { is }]) => is),
    ...Object.fromEntries(lists),
  } as unknown as Pack;
};

interface Gathered {
  at: number;
  readonly fields: Map<string, Said>;
  /** By the field that names them. */
  readonly lines: Map<string, [key: string, cell: Cell][]>;
}

const gather = (into: Map<string, Gathered>, id: string, field: string | undefined, line: string | undefined, cell: Cell): void => {
  const found = into.get(id) ?? { at: 0, fields: new Map(), lines: new Map() };
  into.set(id, found);
  if (field === undefined) found.at = cell.at ?? 0;
  else if (line === undefined) found.fields.set(field, cell.is);
  else {
    const lines = found.lines.get(field) ?? [];
    found.lines.set(field, lines);
    lines.push([line, cell]);
  }
};

const unknownList = (list: string): never => {
  throw new Error(`no list of the atlas is called "${list}"`);
};

type Placed = readonly [string, { readonly at?: number | undefined }];

/** By place, and where two have one, by name. */
const inPlace = ([a, { at: x = 0 }]: Placed, [b, { at: y = 0 }]: Placed): number => x - y || (a < b ? -1 : 1);

const entryOf = (list: List, id: string, { fields, lines }: Gathered): Values => {
  const keyed: Values = Object.assign(
    {},
    ...list.keyed.flatMap(({ fields: [name], from }) => {
      const of = [...(lines.get(name) ?? [])].sort(inPlace);
      return of.length === 0 ? [] : [from(of.map(([key, { is }]) => [key, is]))];
    }),
  );
  const noLines = new Map<string, unknown>(list.keyed.map(({ fields: [name], from }) => [name, from([])[name]]));
  const entry: Record<string, unknown> = {};
  for (const { name, optional } of list.fields) {
    const is = name === 'id' ? id : (keyed[name] ?? fields.get(name) ?? (optional ? undefined : (noLines.get(name) ?? null)));
    if (is !== undefined) entry[name] = is;
  }
  return entry;
};
