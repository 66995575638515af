import {
  type Beside,
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
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { ColumnMatch } from '../bridge/table-calls.ts';
import { HeldFiles } from './held-files.ts';
import { HeldTables, tableGone } from './held-tables.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { tableSeen } from './table-seen.ts';

/** So many faults are told; who mends the first of them is told the next. */
const mostFaults = 2000;

/** Spreadsheets, in and out. */
export const tableCalls = (store: Store, kept: KeptAtlas, now: () => Date = () => new Date()): Calls<'table'> => {
  const [come, out] = [new HeldTables(3, 'Nothing was brought in', cellsHanded), new HeldFiles(2, tableGone)];
  const atlas = knownOf(kept);
  return {
    'table.handIn': async (part) => come.handIn(part),
    'table.match': async ({ token, kind, sheet: sheetName, headings: row, slot, template }) => {
      const read = come.cellsOf(token);
      if (read === null) return tableGone;
      if (!read.ok) return read;
      const sheet = sheetIn(read.value, sheetName);
      if (sheet === undefined) return noSheet;
      const known = await atlas();
      const listed = await store.templates.list();
      if (!listed.ok) return listed;
      const templates = listed.value.filter(({ matching }) => matching.kind === kind);
      const named = templates.find(({ name }) => name === template);
      const headings = row ?? headingRowIn(kind, sheet.rows, known);
      const heads = headings === 0 ? [] : (sheet.rows[headings - 1] ?? []).map(({ text }) => text);
      const by = named ?? (template === null ? templates.find((one) => fits(one, heads)) : undefined);
      const seen = tableSeen(read.value, sheet.rows, headings);
      const wanted = slot ?? by?.matching.slot ?? null;
      const matches: readonly ColumnMatch[] =
        by === undefined
          ? matchSheet(kind, sheet.rows, headings, known, wanted)
          : columnsBy(by, seen.headings).map((use) => ({ use, sure: 'certain', why: `So it is kept in “${by.name}”.`, others: [] }));
      const matching: Matching = {
        kind,
        sheet: sheet.name,
        headings,
        columns: matches.map(({ use }) => use),
        slot: wanted,
        maker: by?.matching.maker ?? null,
      };
      return well({
        ...seen,
        matching,
        matches,
        templates: templates.map((one) => ({ name: one.name, fits: fits(one, heads) })),
        by: by?.name ?? null,
      });
    },
    'table.uses': async ({ kind, slot }) => well(usesOffered(kind, slot, await atlas())),
    'table.rows': async ({ token, sheet: name, from, count }) => {
      const read = come.cellsOf(token);
      if (read === null) return tableGone;
      if (!read.ok) return read;
      const rows = sheetIn(read.value, name)?.rows ?? [];
      return well({ rows: rows.slice(from - 1, from - 1 + count), inAll: rows.length });
    },
    'table.read': async ({ token, matching, mended }) => {
      const read = come.cellsOf(token);
      if (read === null) return tableGone;
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
      const read = come.cellsOf(token);
      if (read === null) return tableGone;
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
      const token = out.begin(name, bytes);
      return well({ token, name, parts: out.partsOf(token), rows });
    },
    'table.part': async ({ token, part }) => out.part(token, part),
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

const noSheet = refusal('not-found', 'sheet', 'The file has no sheet of that name.');
