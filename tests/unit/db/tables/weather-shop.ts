import type { Cell, CellSheet } from '../../../../db/tables/cells.ts';
import type { ColumnUse, Matching, Mended } from '../../../../db/tables/column-use.ts';
import { known } from '../../../../db/tables/known.ts';
import { matchColumns } from '../../../../db/tables/match-columns.ts';
import { readTable } from '../../../../db/tables/read-table.ts';
import { asItIs } from '../../../../db/tables/rows.ts';
import type { TableRead } from '../../../../db/tables/taking.ts';
import {
  type Atlas,
  asId,
  expandCode,
  type Feature,
  type MakerId,
  type Source,
  type SourceId,
  slipOf,
} from '../../../../reasoner/index.ts';
import { demoAtlas, vocabularyPack } from '../../seed/demo-atlas.ts';

/** The vocabulary of the trade, and the two makers of a shop in another town; invented, as all in it. */
export const weatherAtlas: Atlas = {
  ...demoAtlas,
  makers: ['Hoarfrost', 'Sirocco'].map((name) => ({
    id: asId<MakerId>(name.toLowerCase()),
    name,
    tradeNames: name === 'Sirocco' ? [{ name: 'Sirocco & Daughter', from: 1961, to: 1984 }] : [],
    plateRule: false,
    grammar: null,
    source: asId<SourceId>('weather-list'),
  })),
  sources: [...vocabularyPack.sources, { id: asId<SourceId>('weather-list'), title: 'the list of the weather shop', kind: 'invented' }],
  families: [],
  generations: [],
  models: [],
  parts: [],
};

export const asked = {
  expandCode: (nominal: number, code: string) => {
    const expanded = expandCode(nominal, code);
    return expanded.ok ? expanded.value : { error: expanded.sentence };
  },
  slipOf,
};

export const thisTable: Source = { id: asId<SourceId>('sheet'), title: 'the spreadsheet', kind: 'invented' };

const cell = (text: string | number): Cell => ({ text: String(text), is: typeof text === 'number' ? 'number' : 'text' });
export const sheetOf = (...rows: readonly (readonly (string | number)[])[]): CellSheet => ({
  name: 'Sheet',
  hidden: false,
  rows: rows.map((row) => row.map(cell)),
});

/** What the headings of the first row are taken for. */
export const usesOf = (sheet: CellSheet, kind: Matching['kind'], atlas: Atlas): readonly ColumnUse[] =>
  matchColumns(
    kind,
    (sheet.rows[0] ?? []).map(({ text }, column) => ({
      heading: text,
      sample: sheet.rows.slice(1, 20).flatMap((row) => row[column] ?? []),
    })),
    known(atlas),
    null,
  ).map(({ use }) => use);

/** A sheet with headings in its first row, matched by itself, and read. */
export const readSheet = (
  sheet: CellSheet,
  {
    atlas = weatherAtlas,
    kind = 'parts',
    mended = {},
    ...rest
  }: { atlas?: Atlas; kind?: Matching['kind']; mended?: Partial<Mended> } & Partial<Pick<Matching, 'slot' | 'maker'>> = {},
): TableRead =>
  readTable(sheet, {
    known: known(atlas),
    matching: {
      kind,
      sheet: null,
      headings: 1,
      columns: [...usesOf(sheet, kind, atlas)],
      slot: rest.slot ?? null,
      maker: rest.maker ?? null,
    },
    mended: { ...asItIs, ...mended },
    reading: asked,
    source: thisTable,
  });

export const feature = (id: string): Feature => {
  const found = demoAtlas.features.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no feature ${id}`);
  return found;
};

/** An atlas with what a table brings: what the edits put, in place of what was there. */
export const atlasAfter = (atlas: Atlas, { edits }: TableRead): Atlas => {
  const lists: Record<string, Map<string, unknown>> = {};
  const listOf = (name: string) =>
    (lists[name] ??= new Map((atlas[name as 'parts'] as readonly { id: string }[]).map((one) => [one.id, one])));
  for (const edit of edits) {
    if ('put' in edit) {
      const before = listOf(edit.list).get(edit.put.id as string) as object | undefined;
      listOf(edit.list).set(edit.put.id as string, edit.list === 'models' ? { allowed: [], ...before, ...edit.put } : edit.put);
    } else if ('allow' in edit || 'disallow' in edit) {
      const { model, part } = 'allow' in edit ? edit.allow : edit.disallow;
      const own = listOf('models').get(model) as { allowed: { part: string }[] };
      const others = own.allowed.filter((one) => one.part !== part);
      listOf('models').set(model, {
        ...own,
        allowed: 'allow' in edit ? [...others, { slot: edit.allow.slot, part, role: edit.allow.role }] : others,
      });
    }
  }
  return { ...atlas, ...Object.fromEntries(Object.entries(lists).map(([name, all]) => [name, [...all.values()]])) } as Atlas;
};
