import { and, eq } from 'drizzle-orm';
import { type CellKey, type Cells, keyOf } from '../atlas/cell.ts';
import type { Allowance, Pack, PackHead } from '../atlas/pack.ts';
import { readLists } from '../atlas/read-lists.ts';
import { cellsOf, packOf } from '../changes/cells-of.ts';
import { type OwnWords, saidUnder } from '../changes/own-words.ts';
import { readCell } from '../changes/word-rows.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { type Trouble, TroubleError, trouble } from '../trouble.ts';
import type { State } from './pack-rows.ts';

/** A pack as the atlas holds it: what is reasoned over of it. */
export interface Held {
  readonly pack: Pack;
  /** Where its entries stand in the tables. */
  readonly places: ReadonlyMap<CellKey, number>;
  /** The text of its signature.json; null where it came unsigned. */
  readonly signature: string | null;
  /** Where the shop says otherwise than the pack itself. */
  readonly words: OwnWords;
}

/** What a held pack says, with the places its entries stand at. */
export const cellsOfHeld = ({ pack, places }: Held): Cells => cellsOf(pack, (key) => places.get(key));

export const stateOfHeld = (held: Held): State => ({ pack: held.pack, cells: cellsOfHeld(held), words: held.words });

/** What a held pack itself says, without the shop's word. */
export const saidPack = (held: Held): Pack =>
  held.words.size === 0 ? held.pack : packOf(held.pack.head.id, saidUnder(cellsOfHeld(held), held.words));

/** The shop's words on a pack. */
export const readWords = async ({ orm }: Reader, pack: string): Promise<OwnWords> => {
  const rows = await orm.select().from(t.ownWords).where(eq(t.ownWords.pack, pack));
  return asWords(rows);
};

const asWords = (rows: readonly { readonly cell: string; readonly own: string | null; readonly said: string | null }[]): OwnWords =>
  new Map(rows.map(({ cell, own, said }) => [cell as CellKey, { own: readCell(own), said: readCell(said) }]));

/** What a pack's row says of it. */
export const headOfRow = (row: Pick<typeof t.packs.$inferSelect, Exclude<keyof PackHead, 'format' | 'version'>>): PackHead => ({
  format: 'kinplate atlas pack',
  version: 1,
  id: row.id,
  title: row.title,
  edition: row.edition,
  invented: row.invented,
  note: row.note,
  ...(row.licence === null ? {} : { licence: row.licence }),
  ...(row.by === null ? {} : { by: row.by }),
  ...(row.leansOn === null ? {} : { leansOn: row.leansOn }),
  ...(row.mapped === null ? {} : { mapped: row.mapped }),
});

/** Of a held pack these parts and nothing else, with the shop's words on them. */
export const readHeldParts = async (reader: Reader, row: typeof t.packs.$inferSelect, ids: readonly string[]): Promise<Held> => {
  const { lists, parts, places } = await readLists(reader, { view: { of: 'one', pack: row.id }, onlyParts: ids });
  // Of what is said of a part all begins with its id and a slash, after which 0 is the next sign.
  const words = await reader.all<{ cell: CellKey; own: string | null; said: string | null }>(
    `select w.cell, w.own, w.said from json_each(?) of cross join own_words w
     on w.pack = ? and (w.cell = of.value or (w.cell > of.value || '/' and w.cell < of.value || '0')) order by w.cell`,
    [JSON.stringify(parts.map(({ id }) => keyOf('parts', id))), row.id],
  );
  return {
    pack: { head: headOfRow(row), ...lists, parts, allowed: [], sheets: [] },
    places,
    signature: row.signature,
    words: asWords(words),
  };
};

/** Null where the atlas holds no such pack. */
export const readHeld = async (reader: Reader, id: string): Promise<Held | null> => {
  const { orm } = reader;
  const [row] = await orm.select().from(t.packs).where(eq(t.packs.id, id));
  if (row === undefined) return null;
  const { lists, parts, places } = await readLists(reader, { view: { of: 'one', pack: id } });
  const samples = await orm
    .select({ id: t.sheets.id, body: t.sheets.body, position: t.sheets.position })
    .from(t.sheets)
    .where(and(eq(t.sheets.pack, id), eq(t.sheets.origin, 'sample')))
    .orderBy(t.sheets.position);
  const pack: Pack = {
    head: headOfRow(row),
    ...lists,
    parts,
    allowed: await reader.all<Allowance>(
      `select m.id as model, p.slot, p.id as part, s.role from sits s join models m on m.n = s.model join parts p on p.n = s.part where s.pack = ?`,
      [id],
    ),
    sheets: samples.map(({ id: sheet, body }) => {
      const parsed = parseSheet(body, `sheet ${sheet}`);
      if (!parsed.ok) throw new TroubleError(parsed.trouble);
      return parsed.value.sheet;
    }),
  };
  const standing = new Map<CellKey, number>(places);
  for (const { id: sheet, position } of samples) standing.set(keyOf('sheets', sheet), position);
  return { pack, places: standing, signature: row.signature, words: await readWords(reader, id) };
};

export const noSuchPack = (id: string): Trouble => trouble('not-found', `pack ${id}`, `The atlas holds no pack "${id}".`);
