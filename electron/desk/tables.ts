import {
  type Beside,
  type Cells,
  cellsHanded,
  columnsBy,
  factsOut,
  fits,
  headingRowIn,
  type Known,
  knownTable,
  type Matching,
  matchSheet,
  modelsOut,
  type Outcome,
  partsFound,
  partsOut,
  readTable,
  type Store,
  sheetIn,
  type TableRead,
  tableCsv,
  tableXlsx,
  usesOffered,
} from '../../db/index.ts';
import { asId, expandCode, type Source, slipOf } from '../../reasoner/index.ts';
import { dayInWords } from '../../reasoner/plain/day-in-words.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { ColumnMatch } from '../bridge/table-calls.ts';
import { HeldFiles } from './held-files.ts';
import type { KeptAtlas } from './kept-atlas.ts';

const { partBytes } = limits;
/** So many faults are told; who mends the first of them is told the next. */
const mostFaults = 2000;
/** So many rows are shown under the headings. */
const shownFirst = 6;

/** Spreadsheets, in and out. */
export const tableCalls = (store: Store, kept: KeptAtlas, now: () => Date = () => new Date()): Calls<'table'> => {
  const [come, out] = [new HeldFiles(3), new HeldFiles(2)];
  // Cells are made once of what was handed in, for as long as nothing is added to it.
  const cellsHeld = new Map<string, { readonly bytes: number; readonly cells: Outcome<Cells> }>();
  const cellsOf = (token: string): Outcome<Cells> | null => {
    const held = come.whole(token);
    for (const old of cellsHeld.keys()) if (come.whole(old) === null) cellsHeld.delete(old);
    if (held === null) return null;
    const before = cellsHeld.get(token);
    if (before?.bytes === held.bytes.length) return before.cells;
    const cells = cellsHanded(held.bytes, held.name);
    cellsHeld.set(token, { bytes: held.bytes.length, cells });
    return cells;
  };
  const atlas = knownOf(kept);
  return {
    'table.handIn': async ({ token, name, data }) => {
      const taking = token ?? come.begin(name);
      const bytes = come.add(taking, Buffer.from(data, 'base64'));
      if (bytes === null) return gone;
      if (bytes <= limits.spreadsheetBytes) return well({ token: taking, bytes });
      come.drop(taking);
      return refusal(
        'table-too-large',
        name,
        `${name} is too large: the most is ${limits.spreadsheetBytes / 1024 / 1024} MiB. Nothing was brought in; take it apart into several.`,
      );
    },
    'table.match': async ({ token, kind, sheet: sheetName, headings: row, slot, template }) => {
      const read = cellsOf(token);
      if (read === null) return gone;
      if (!read.ok) return read;
      const sheet = sheetIn(read.value, sheetName);
      if (sheet === undefined) return noSheet;
      const known = await atlas();
      const listed = await store.templates.list();
      if (!listed.ok) return listed;
      const templates = listed.value.filter(({ matching }) => matching.kind === kind);
      const named = templates.find(({ name }) => name === template);
      const headsIn = (at: number): readonly string[] => (at === 0 ? [] : (sheet.rows[at - 1] ?? []).map(({ text }) => text));
      const headings = row ?? headingRowIn(kind, sheet.rows, known);
      const heads = headsIn(headings);
      const by = named ?? (template === null ? templates.find((one) => fits(one, heads)) : undefined);
      const width = sheet.rows.reduce((most, cells) => Math.max(most, cells.length), 0);
      const below = sheet.rows.slice(headings);
      const headingTexts = Array.from({ length: width }, (_, at) => heads[at] ?? '');
      const wanted = slot ?? by?.matching.slot ?? null;
      const matches: readonly ColumnMatch[] =
        by === undefined
          ? matchSheet(kind, sheet.rows, headings, known, wanted)
          : columnsBy(by, headingTexts).map((use) => ({ use, sure: 'certain', why: `So it is kept in “${by.name}”.`, others: [] }));
      const matching: Matching = {
        kind,
        sheet: sheet.name,
        headings,
        columns: matches.map(({ use }) => use),
        slot: wanted,
        maker: by?.matching.maker ?? null,
      };
      return well({
        file: read.value.file,
        notes: read.value.notes,
        sheets: read.value.sheets.map(({ name, hidden, rows }) => ({ name, hidden, rows: rows.length })),
        matching,
        headings: headingTexts,
        matches,
        templates: templates.map((one) => ({ name: one.name, fits: fits(one, heads) })),
        by: by?.name ?? null,
        first: below
          .filter((cells) => cells.some(({ text }) => text !== ''))
          .slice(0, shownFirst)
          .map((cells) => Array.from({ length: width }, (_, at) => cells[at]?.text ?? '')),
        rows: below.length,
      });
    },
    'table.uses': async ({ kind, slot }) => well(usesOffered(kind, slot, await atlas())),
    'table.rows': async ({ token, sheet: name, from, count }) => {
      const read = cellsOf(token);
      if (read === null) return gone;
      if (!read.ok) return read;
      const rows = sheetIn(read.value, name)?.rows ?? [];
      return well({ rows: rows.slice(from - 1, from - 1 + count), inAll: rows.length });
    },
    'table.read': async ({ token, matching, mended }) => {
      const read = cellsOf(token);
      if (read === null) return gone;
      if (!read.ok) return read;
      const sheet = sheetIn(read.value, matching.sheet);
      if (sheet === undefined) return noSheet;
      const { counts, faults, edits } = tableRead(
        sheet,
        matching,
        mended,
        await atlas(),
        sourceOf(read.value.file, 'measured in the shop', now()),
      );
      return well({ counts, faults: faults.slice(0, mostFaults), faultsInAll: faults.length, edits: edits.length });
    },
    'table.edits': async ({ token, matching, mended, from }) => {
      const read = cellsOf(token);
      if (read === null) return gone;
      if (!read.ok) return read;
      const sheet = sheetIn(read.value, matching.sheet);
      if (sheet === undefined) return noSheet;
      const source = sourceOf(read.value.file, from, now());
      const { edits, rows } = tableRead(sheet, matching, mended, await atlas(), source);
      return well({ edits, rows, source: source.title });
    },
    'table.write': async ({ kind, slot, found, format }) => {
      const known = await atlas();
      const { bytes, rows } = await tableWritten(kind, slot, found, format, known);
      const name = `${kind}-${now().toISOString().slice(0, 10)}.${format}`;
      return well({ token: out.begin(name, bytes), name, parts: Math.max(1, Math.ceil(bytes.length / partBytes)), rows });
    },
    'table.part': async ({ token, part }) => {
      const held = out.whole(token);
      if (held === null) return gone;
      const data = held.bytes.subarray(part * partBytes, (part + 1) * partBytes);
      if (data.length === 0) return refusal('not-found', 'part', `The file has no part ${part}.`);
      if ((part + 1) * partBytes >= held.bytes.length) out.drop(token);
      return well({ data: data.toString('base64') });
    },
    'table.keep': (template) => store.templates.keep(template),
    'table.forget': ({ name }) => store.templates.remove(name),
  };
};

/** The atlas as tables are read against, made anew when the atlas is another. */
export const knownOf = (kept: KeptAtlas): (() => Promise<Known>) => {
  let last: { readonly beside: Beside; readonly known: Known } | null = null;
  return async () => {
    const { data } = await kept.now();
    if (last?.beside !== data) last = { beside: data, known: knownTable(data) };
    return last.known;
  };
};

export const tableRead = (
  sheet: Parameters<typeof readTable>[0],
  matching: Matching,
  mended: Parameters<typeof readTable>[1]['mended'],
  known: Known,
  source: Source,
): TableRead =>
  readTable(sheet, {
    known,
    matching,
    mended,
    source,
    reading: {
      slipOf,
      expandCode: (nominal, code) => {
        const expanded = expandCode(nominal, code);
        return expanded.ok ? expanded.value : { error: expanded.sentence };
      },
    },
  });

/** The table itself as a source: what it is called, and the day it was brought in. */
export const sourceOf = (file: string, kind: Source['kind'], now: Date): Source => {
  const day = now.toISOString().slice(0, 10);
  const name = file.replace(/\s+/g, ' ').trim();
  const id = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return { id: asId(`table-${id === '' ? 'cells' : id}-${day}`), title: `“${name}”, brought in on ${dayInWords(day)}`, kind };
};

export const tableWritten = async (
  kind: Matching['kind'],
  slot: Matching['slot'],
  found: string,
  format: 'xlsx' | 'csv',
  known: Known,
): Promise<{ readonly bytes: Buffer; readonly rows: number }> => {
  const parts = partsFound(found, slot, known);
  const table =
    kind === 'parts' ? partsOut(parts, known) : kind === 'facts' ? factsOut(parts, known) : modelsOut(modelsFound(found, known), known);
  return { bytes: format === 'csv' ? Buffer.from(tableCsv(table)) : await tableXlsx(table), rows: table.rows.length };
};

const modelsFound = (found: string, { beside, modelsCalled }: Known): Known['beside']['models'] => {
  const text = found.trim().toLowerCase();
  if (text === '') return beside.models;
  const called = modelsCalled(found);
  const families = new Map(beside.families.map(({ id, name }) => [id, name.toLowerCase()]));
  return beside.models.filter(
    (model) => called.includes(model) || model.name.toLowerCase().includes(text) || families.get(model.family)?.includes(text),
  );
};

const gone = refusal(
  'not-found',
  'token',
  'That table is no longer held: others came after it, or Kinplate was started again. Hand it in once more.',
);
const noSheet = refusal('not-found', 'sheet', 'The file has no sheet of that name.');
